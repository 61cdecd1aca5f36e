// fw_bench_window: from start to usable, and from Enter to the new findings. Needs a display (xvfb-run will do). Prints
// a table; asserts nothing.

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>
#include <wx/evtloop.h>
#include <wx/init.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <random>
#include <vector>

#include "base/number.hpp"
#include "bench/analysis.hpp"
#include "bench/evening.hpp"
#include "record/record.hpp"
#include "window/app.hpp"
#include "window/bench.hpp"
#include "window/keyboard.hpp"

namespace {

using namespace fitwright;
using namespace window_test;
using Clock = std::chrono::steady_clock;

constexpr int readings = 60, times = 15, starts = 5;

double ms_since(Clock::time_point begin) {
  return std::chrono::duration<double, std::milli>(Clock::now() - begin).count();
}

void tell(const std::string& what, std::vector<double> ms) {
  std::sort(ms.begin(), ms.end());
  std::cout << what << ": median " << fixed(ms[ms.size() / 2], 1) << " ms, longest " << fixed(ms.back(), 1) << " ms ("
            << ms.size() << " times)\n";
}

std::string drawn_here(const Measuring& m) {
  const auto lines = due_lines(m);
  const Feature& f = m.plan->spots[lines.at(find_line(lines, m.here)).due.spot].feature;
  return fixed(f.nominal_mm + (f.kind == Kind::zero ? 0 : 0.01 * static_cast<double>(m.taken.size() % 7)), 2);
}

void enter_to_findings() {
  Frame& frame = frame_with_setup(2);
  const auto type = [&] {
    frame.measuring().field().SetValue(wx(drawn_here(frame.document().content().measuring)));
    frame.measuring().enter();
  };
  for (int i = 0; i < readings; ++i) type();
  settled(frame);
  std::vector<double> shown, taken, computed;
  for (int i = 0; i < times; ++i) {
    const auto begin = Clock::now();
    type();
    taken.push_back(ms_since(begin));
    wxEventLoopBase& loop = *wxEventLoopBase::GetActive();
    while (!frame.up_to_date()) {
      wxTheApp->ProcessPendingEvents();
      while (loop.Pending() && !frame.up_to_date()) loop.Dispatch();
    }
    shown.push_back(ms_since(begin));
    pump();
    const auto alone = Clock::now();
    (void)bench_view(frame.document().content(), analyse(frame.document().content(), frame.document().revision()));
    computed.push_back(ms_since(alone));
    frame.undo();
    settled(frame);
  }
  tell("Enter to the reading in the record, 60 readings", taken);
  tell("Enter to new findings, 60 readings", shown);
  tell("  of which the findings themselves", computed);
}

void start_to_usable(const std::string& folder) {
  std::vector<double> on_screen, typed_kept;
  for (int i = 0; i < starts; ++i) {
    const std::string home = folder + "/start" + std::to_string(i), record = home + "/record.fitwright";
    std::filesystem::create_directories(home);
    record::Id setup;
    {
      record::Opened opened = record::open_or_memory(record);
      setup = put_setup_in(opened.record, 1);
    }
    const auto begin = Clock::now();
    const pid_t pid = fork();
    if (pid == 0) {
      setenv("XDG_CONFIG_HOME", home.c_str(), 1);
      setenv("XDG_DATA_HOME", home.c_str(), 1);
      execl(FW_FITWRIGHT, "fitwright", "--record", record.c_str(), static_cast<char*>(nullptr));
      _exit(127);
    }
    constexpr useconds_t look_again_us = 2000;
    while (!focus_window_of(pid)) usleep(look_again_us);
    on_screen.push_back(ms_since(begin));
    type_text("0.00");
    press_key("Return");
    const auto kept = [&] {
      record::OpenOptions only_look;
      only_look.read_only = true;
      record::Opened opened = record::open_or_memory(record, only_look);
      const auto evening = evening_of(opened.record, setup, {});
      return evening && !evening->kept.taken.empty();
    };
    while (!kept()) usleep(look_again_us);
    typed_kept.push_back(ms_since(begin));
    kill(pid, SIGKILL);
    waitpid(pid, nullptr, 0);
  }
  tell("Start to the window on the screen", on_screen);
  tell("Start to the first reading typed and in the record", typed_kept);
}

}  // namespace

int main(int, char** argv) {
  const auto folder =
      std::filesystem::temp_directory_path() / ("fitwright-bench-" + std::to_string(std::random_device{}()));
  std::filesystem::create_directories(folder);
  for (const char* variable : {"XDG_CONFIG_HOME", "XDG_DATA_HOME", "FW_WINDOW_TEST_FOLDER"})
    setenv(variable, folder.c_str(), 1);
  setenv("LC_ALL", "C.UTF-8", 1);
  wxApp::SetInstance(new App);
  int wx_argc = 1;
  if (!wxEntryStart(wx_argc, argv) || !wxTheApp->CallOnInit()) return 1;
  {
    wxGUIEventLoop loop;
    const wxEventLoopActivator active(&loop);
    enter_to_findings();
    start_to_usable(folder.string());
    static_cast<App*>(wxTheApp)->frame()->Destroy();
    wxTheApp->ProcessPendingEvents();
    loop.ProcessIdle();
  }
  wxEntryCleanup();
  std::filesystem::remove_all(folder);
  return 0;
}
