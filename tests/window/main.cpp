// Starts the window on the virtual screen, then runs the cases inside its process. Lists are answered without a screen.

#define CATCH_CONFIG_RUNNER
#include <wx/evtloop.h>
#include <wx/init.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <random>
#include <string>

#include "window/app.hpp"

namespace {

bool only_asks(int argc, char** argv) {
  for (int i = 1; i < argc; ++i) {
    const std::string argument = argv[i];
    if (argument.rfind("--list", 0) == 0 || argument == "-l" || argument == "-t" || argument == "-h" ||
        argument == "--help")
      return true;
  }
  return false;
}

}  // namespace

int main(int argc, char** argv) {
  Catch::Session session;
  if (only_asks(argc, argv)) return session.run(argc, argv);

  // The user's own settings and unsaved readings are neither read nor touched.
  const auto folder =
      std::filesystem::temp_directory_path() / ("fitwright-window-" + std::to_string(std::random_device{}()));
  std::filesystem::create_directories(folder);
  for (const char* variable : {"XDG_CONFIG_HOME", "XDG_DATA_HOME", "FW_WINDOW_TEST_FOLDER"})
    setenv(variable, folder.c_str(), 1);

  setenv("LC_ALL", "C.UTF-8", 1);  // English, whatever the machine speaks
  unsetenv("LANGUAGE");

  wxApp::SetInstance(new fitwright::App);
  int wx_argc = 1;
  if (!wxEntryStart(wx_argc, argv)) return 1;
  int failed = 1;
  if (wxTheApp->CallOnInit()) {
    wxGUIEventLoop loop;
    const wxEventLoopActivator active(&loop);
    failed = session.run(argc, argv);
    static_cast<fitwright::App*>(wxTheApp)->frame()->Destroy();
    wxTheApp->ProcessPendingEvents();
    while (loop.Pending()) loop.Dispatch();
    loop.ProcessIdle();
  }
  wxEntryCleanup();
  std::filesystem::remove_all(folder);
  return failed == 0 ? 0 : 1;
}
