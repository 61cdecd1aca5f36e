#pragma once
// The commands of fitw: each is declared to the parser, and run when it was chosen. One file a command.

#include <memory>
#include <vector>

#include "outcome.hpp"
#include "words.hpp"

namespace fitw {

struct Command {
  std::unique_ptr<Words> words;
  Outcome (*run)(Words& words) = nullptr;
};

Command coupons_command(CLI::App& root);    ///< lists the designs
Command make_command(CLI::App& root);       ///< writes a coupon's solid, features and plan
Command sheet_command(CLI::App& root);      ///< writes a measuring sheet
Command estimate_command(CLI::App& root);   ///< readings to estimates
Command correct_command(CLI::App& root);    ///< readings and settings to corrections
Command simulate_command(CLI::App& root);   ///< readings from the practice printer
Command ladder_command(CLI::App& root);     ///< trials of a fit ladder to thresholds
Command allowance_command(CLI::App& root);  ///< what to draw for a fit
Command tolerance_command(CLI::App& root);  ///< limits and fits
Command next_command(CLI::App& root);       ///< what to print next

/// The commands of the record, those below `fitw record` first.
std::vector<Command> record_commands(CLI::App& root);

}  // namespace fitw
