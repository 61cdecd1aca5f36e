// fitwright: opens the window on the record, on a file's readings, or on the demo.

#include <wx/init.h>

#include <iostream>
#include <string>
#include <utility>
#include <vector>

#include "window/app.hpp"
#include "window/display.hpp"

namespace {

constexpr const char* usage =
    "usage: fitwright [--record FILE] [--setup NAME] [FILE.csv]\n"
    "Opens the record, with the setup that was on the bench last, or the readings in FILE.csv.\n"
    "  --record FILE  open this record instead of your own\n"
    "  --setup NAME   put this setup of it on the bench\n"
    "  --demo         look around in the demo: nothing is kept\n"
    "  --version      print the version\n"
    "  --help         print this\n"
    "The command line of the same program is fitw.\n";

int wrong_usage(const std::string& what) {
  std::cerr << "fitwright: " << what << "; fitwright --help tells what it takes\n";
  return 2;
}

}  // namespace

int main(int argc, char** argv) {
  fitwright::Start start;
  const std::vector<std::string> arguments(argv + 1, argv + argc);
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    const std::string& argument = arguments[i];
    if (argument == "--help" || argument == "-h") return (std::cout << usage).good() ? 0 : 5;
    if (argument == "--version") return (std::cout << "fitwright " FITWRIGHT_VERSION "\n").good() ? 0 : 5;
    if (argument == "--demo") {
      start.demo = true;
    } else if (argument == "--record" || argument == "--setup") {
      if (i + 1 == arguments.size()) return wrong_usage(argument + " needs a value");
      (argument == "--record" ? start.record : start.setup) = arguments[++i];
    } else if (argument.size() > 1 && argument[0] == '-') {
      return wrong_usage("\"" + argument + "\" is not an option");
    } else if (!start.readings.empty()) {
      return wrong_usage("one file at a time, please: \"" + start.readings + "\" or \"" + argument + "\"");
    } else {
      start.readings = argument;
    }
  }
  if (start.demo && !(start.readings + start.record).empty()) return wrong_usage("either --demo or a file");
  if (!fitwright::display_found()) {
    std::cerr
        << "fitwright: there is no display to open the window on; start it from a terminal of the desktop, or work "
           "without one: fitw --help\n";
    return 1;
  }
  wxApp::SetInstance(new fitwright::App(std::move(start)));
  int wx_argc = 1;  // our arguments are not for wx
  return wxEntry(wx_argc, argv);
}
