#include "root.hpp"

#include <cstdio>
#include <string_view>

#include "base/text.hpp"
#include "help.hpp"

namespace fitw {
namespace {

constexpr const char* purpose =
    "Finds out from caliper readings of small printed coupons what a filament printer does to sizes (scale, edge "
    "growth, "
    "hole closing, flare, squareness), how sure that is, and which setting to change from what to what.";

constexpr const char* example = R"(An evening at the tool library with "Heron", the older printer, and a new
spool, PLA slate, batch 14:
  fitw make frame --out heron           print heron/frame.stl; let the part and
                                        the caliper come to room temperature
  fitw sheet frame --out frame.pdf      where the jaws go, a box per reading
  fitw estimate slate14.csv             what the readings say, and what not
  fitw correct slate14.csv --state heron.json --policy shrink
                                        which knob, from what to what, and
                                        what to leave alone
  fitw simulate default --seed 1 --out practice.csv
                                        readings of a printer whose truth is
                                        known, to try it all out

With a record, which keeps it all (fitw record --help begins one):
  fitw estimate --setup "PLA slate on Heron"
  fitw correct --setup "PLA slate on Heron" --policy shrink
  fitw record apply last

Text goes to standard output, messages to standard error; with --json one JSON
document and nothing else. Exit codes: 0 done; 2 wrong usage; 3 bad input,
nothing written; 4 the data cannot answer; 5 a file could not be read or
written.

Take care: hot end and bed burn. Changed steps per mm change how far the
machine moves: note the old values first.)";

constexpr const char* ask_help = "fitw --help lists the commands";

}  // namespace

void describe(CLI::App& root) {
  root.name("fitw");
  set_help(root, purpose, example);
  root.require_subcommand(0, 1);
  root.allow_extras();
}

std::vector<Command> all_commands(CLI::App& root) {
  std::vector<Command> commands;
  for (const auto make : {coupons_command, make_command, sheet_command, estimate_command, correct_command,
                          ladder_command, allowance_command, next_command, tolerance_command, simulate_command})
    commands.push_back(make(root));
  for (Command& command : record_commands(root)) commands.push_back(std::move(command));
  return commands;
}

Outcome no_command(const CLI::App& root) {
  Outcome outcome;
  const auto complain = [&](const std::string& what, const std::string& remedy) {
    outcome.problems.push_back({fitwright::Code::usage, {}, what, remedy});
  };
  const std::vector<std::string> words = root.remaining();
  if (words.empty()) {
    complain("a command is missing", ask_help);
  } else if (words.front().starts_with('-')) {
    complain(fitwright::quote(words.front()) + " stands where a command should",
             "options come after the command; " + std::string(ask_help));
  } else {
    std::vector<std::string> names;
    for (const CLI::App* command : root.get_subcommands({})) names.push_back(command->get_name());
    const std::vector<std::string_view> known(names.begin(), names.end());
    const std::string_view near = fitwright::nearest(words.front(), known);
    complain(fitwright::quote(words.front()) + " is not a command of fitw",
             near.empty() ? ask_help : "perhaps " + std::string(near) + " is meant; " + ask_help);
  }
  return outcome;
}

Outcome misunderstood() {
  return {"", {}, {{fitwright::Code::usage, {}, "the options could not be made out", ask_help}}};
}

int print_defect() {
  constexpr int defect = 1;
  std::fputs(
      "fitw found a contradiction in itself and stopped; this is a defect of fitw: please tell its developers the "
      "command line and the files\n",
      stderr);
  return defect;
}

}  // namespace fitw
