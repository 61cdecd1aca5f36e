// Paints the window's places as they stand on the screen, for docs/pictures. make.sh runs it once for each size, scale
// and theme:
//   paint_places FOLDER ENDING [first]
// writes FOLDER/NAME-ENDING.png for every place of the demo, or for the first start.

#include <wx/clipbrd.h>
#include <wx/evtloop.h>
#include <wx/init.h>
#include <wx/utils.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <iostream>
#include <random>
#include <string>

#include "bench/guide.hpp"
#include "window/actions.hpp"
#include "window/app.hpp"
#include "window/guide_window.hpp"

using namespace fitwright;

namespace {

constexpr auto motion_over = std::chrono::milliseconds(700);  // the coupon's turn, and what the desktop fades in
constexpr int colours = 128;                                  // of a picture's palette: small files, no visible steps

void handle_for(std::chrono::milliseconds time) {
  const auto end = std::chrono::steady_clock::now() + time;
  wxEventLoopBase& loop = *wxEventLoopBase::GetActive();
  while (std::chrono::steady_clock::now() < end) {
    wxTheApp->ProcessPendingEvents();
    while (loop.Pending()) loop.Dispatch();
    loop.ProcessIdle();
    loop.DispatchTimeout(5);
  }
}

class Painter {
 public:
  Painter(Frame& frame, std::string folder, std::string ending)
      : frame_(frame), folder_(std::move(folder)), ending_(std::move(ending)) {
    int width = 0, height = 0;
    wxDisplaySize(&width, &height);
    frame_.SetSize(0, 0, width, height);
  }

  /// What is on the screen, OpenGL and all; another window in front is in it too.
  void take(const std::string& name) {
    while (!frame_.up_to_date()) handle_for(std::chrono::milliseconds(20));
    handle_for(motion_over);
    const std::string file = folder_ + "/" + name + "-" + ending_ + ".png";
    const std::string command = "import -window root +dither -colors " + std::to_string(colours) +
                                " -define png:compression-level=9 -strip PNG8:'" + file + "'";
    if (std::system(command.c_str()) != 0) {
      std::cerr << "not written: " << file << "\n";
      failed_ = true;
    }
  }

  void choose(int action) {
    wxCommandEvent event(wxEVT_MENU, action);
    frame_.GetEventHandler()->ProcessEvent(event);
    handle_for(std::chrono::milliseconds(50));
  }

  [[nodiscard]] bool failed() const { return failed_; }

 private:
  Frame& frame_;
  std::string folder_, ending_;
  bool failed_ = false;
};

void paint_demo(Frame& frame, Painter& painter) {
  for (const Stage place : all_places()) {
    frame.go_to(place);
    std::string name = guide_page_of(place);
    painter.take(name.substr(0, name.find('.')));
  }
  painter.choose(act_estimates);
  painter.take("numbers");
  frame.go_to(Stage::measure);
  painter.choose(act_table);
  painter.take("table");
  painter.choose(act_table);
  // A column of a spreadsheet with a header and a slip in it.
  frame.measuring().offer_paste("read\n0.01\n0.01\n40.12\n40,13\n411.2\nsmudged\n99.91\n");
  painter.take("paste");
  GuideWindow& guide = frame.open_guide(guide_page_of(Stage::measure));
  guide.SetSize(frame.GetRect());
  painter.take("help");
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 3) {
    std::cerr << "usage: paint_places FOLDER ENDING [first]\n";
    return 2;
  }
  const bool first = argc > 3 && std::string(argv[3]) == "first";
  const auto own =
      std::filesystem::temp_directory_path() / ("fitwright-paint-" + std::to_string(std::random_device{}()));
  std::filesystem::create_directories(own);
  for (const char* variable : {"XDG_CONFIG_HOME", "XDG_DATA_HOME"}) setenv(variable, own.c_str(), 1);
  setenv("LC_ALL", "C.UTF-8", 1);
  unsetenv("LANGUAGE");

  Start start;
  start.demo = !first;
  wxApp::SetInstance(new App(start));
  int wx_argc = 1;
  if (!wxEntryStart(wx_argc, argv)) return 1;
  bool failed = true;
  if (wxTheApp->CallOnInit()) {
    wxGUIEventLoop loop;
    const wxEventLoopActivator active(&loop);
    Frame& frame = *static_cast<App*>(wxTheApp)->frame();
    Painter painter(frame, argv[1], argv[2]);
    if (first)
      painter.take("first-start");
    else
      paint_demo(frame, painter);
    failed = painter.failed();
    frame.Destroy();
    handle_for(std::chrono::milliseconds(20));
  }
  wxEntryCleanup();
  std::filesystem::remove_all(own);
  return failed ? 1 : 0;
}
