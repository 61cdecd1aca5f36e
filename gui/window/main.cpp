// fitwright [FILE.csv]: opens the window on a file's readings, or on the demo.

#include <wx/init.h>

#include <iostream>
#include <string>
#include <vector>

#include "window/app.hpp"

namespace {

constexpr const char* usage =
    "usage: fitwright [FILE.csv]\n"
    "Opens the readings in FILE.csv, or the demo.\n"
    "  --demo      open the demo\n"
    "  --version   print the version\n"
    "  --help      print this\n"
    "The command line of the same program is fitw.\n";

int wrong_usage(const std::string& what) {
  std::cerr << "fitwright: " << what << "; fitwright --help tells what it takes\n";
  return 2;
}

}  // namespace

int main(int argc, char** argv) {
  std::string path;
  bool demo = false;
  for (const std::string& argument : std::vector<std::string>(argv + 1, argv + argc)) {
    if (argument == "--help" || argument == "-h") return (std::cout << usage).good() ? 0 : 5;
    if (argument == "--version") return (std::cout << "fitwright " FITWRIGHT_VERSION "\n").good() ? 0 : 5;
    if (argument == "--demo") {
      demo = true;
    } else if (argument.size() > 1 && argument[0] == '-') {
      return wrong_usage("\"" + argument + "\" is not an option");
    } else if (!path.empty()) {
      return wrong_usage("one file at a time, please: \"" + path + "\" or \"" + argument + "\"");
    } else {
      path = argument;
    }
  }
  if (demo && !path.empty()) return wrong_usage("either --demo or a file");
  wxApp::SetInstance(new fitwright::App(path));
  int wx_argc = 1;  // our arguments are not for wx
  return wxEntry(wx_argc, argv);
}
