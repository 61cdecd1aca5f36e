#pragma once
// fitw itself: what it says of itself, and what it says when no command can be made out.

#include <CLI/CLI.hpp>
#include <vector>

#include "commands.hpp"

namespace fitw {

/// Help and version of fitw as a whole.
void describe(CLI::App& root);

/// Declares every command, in the order in which the job needs them.
std::vector<Command> all_commands(CLI::App& root);

/// No command, an unknown one, or options before it.
Outcome no_command(const CLI::App& root);

/// The words could not be sorted into options at all.
Outcome misunderstood();

/// A broken invariant or no memory: says that it is our defect. Gives the exit code, which no expected failure has.
int print_defect();

}  // namespace fitw
