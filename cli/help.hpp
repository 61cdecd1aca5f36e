#pragma once
// The looks of --help, the same for fitw and each of its commands.

#include <CLI/CLI.hpp>
#include <string>

namespace fitw {

/// Gives a command (or fitw itself) its purpose, its closing examples, --help and --version.
void set_help(CLI::App& app, const std::string& purpose, const std::string& examples);

/// What an option or command means, broken into lines that fit beside its name.
std::string beside_name(const std::string& meaning);

}  // namespace fitw
