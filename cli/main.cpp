// fitw: calibration by coupon and caliper, from the command line.

#include <CLI/CLI.hpp>
#include <exception>
#include <vector>

#include "commands.hpp"
#include "root.hpp"

namespace {

fitw::Outcome answer(CLI::App& root, const std::vector<fitw::Command>& commands, int argc, const char* const* argv) {
  try {
    root.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    return {root.help(), {}, {}};  // of the command that was named, if any
  } catch (const CLI::CallForVersion&) {
    return {"fitw " FITWRIGHT_VERSION "\n", {}, {}};
  } catch (const CLI::ParseError&) {
    return fitw::misunderstood();
  }
  for (const fitw::Command& command : commands)
    if (command.words->chosen() && root.remaining().empty()) return command.run(*command.words);
  return fitw::no_command(root);
}

}  // namespace

int main(int argc, char** argv) {
  try {
    CLI::App root;
    fitw::describe(root);
    const std::vector<fitw::Command> commands = fitw::all_commands(root);
    return fitw::print(answer(root, commands, argc, argv));
  } catch (const std::exception&) {
    return fitw::print_defect();
  }
}
