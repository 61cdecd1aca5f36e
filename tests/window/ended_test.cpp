// The program is killed in the middle of measuring: what was typed is in the record, and started anew it stands at the
// same reading.

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <map>
#include <stdexcept>

#include "base/number.hpp"
#include "bench/evening.hpp"
#include "design/design.hpp"
#include "record/record.hpp"
#include "record/store.hpp"
#include "window/bench.hpp"
#include "window/keyboard.hpp"

using namespace fitwright;
using namespace window_test;

namespace {

/// The built program, with settings of its own.
class Program {
 public:
  Program(const std::string& record, const std::string& settings) : pid_(fork()) {
    if (pid_ < 0) throw std::runtime_error("fork");
    if (pid_ == 0) {
      setenv("XDG_CONFIG_HOME", settings.c_str(), 1);
      setenv("XDG_DATA_HOME", settings.c_str(), 1);
      execl(FW_FITWRIGHT, "fitwright", "--record", record.c_str(), static_cast<char*>(nullptr));
      _exit(127);
    }
  }
  ~Program() { kill_now(); }
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;

  /// Its window is there and has the keyboard.
  bool ready() {
    return pump_until([&] { return focus_window_of(pid_); });
  }
  void kill_now() {
    if (pid_ <= 0) return;
    kill(pid_, SIGKILL);
    waitpid(pid_, nullptr, 0);
    pid_ = 0;
  }

 private:
  pid_t pid_;
};

record::Id setup_in(const std::string& path) {
  record::Opened opened = record::open_or_memory(path);
  REQUIRE(opened.problems.empty());
  return put_setup_in(opened.record, 1);
}

Measuring as_kept(const std::string& path, const record::Id& setup) {
  record::Opened opened = record::open_or_memory(path);
  REQUIRE(opened.problems.empty());
  auto evening = evening_of(opened.record, setup, {});
  REQUIRE(evening);
  return evening->kept;
}

std::map<ReadingKey, double> readings_in(const Measuring& m) {
  std::map<ReadingKey, double> out;
  for (const Reading& r : readings_of(m).rows) out[key_of(r)] = r.reading_mm;
  return out;
}

std::string drawn_here(const Measuring& m) {
  const auto lines = due_lines(m);
  const Feature& f = m.plan->spots[lines.at(find_line(lines, m.here)).due.spot].feature;
  return fixed(f.nominal_mm + (f.kind == Kind::zero ? 0 : 0.06), 2);
}

}  // namespace

TEST_CASE("killed in the middle of a line, the program comes back at the same reading with all that was typed",
          "[ended]") {
  const std::string path = folder() + "/ended.fitwright", settings = folder() + "/ended";
  std::filesystem::create_directories(settings);
  const record::Id setup = setup_in(path);
  Measuring typed = as_kept(path, setup);
  std::map<ReadingKey, double> expected;
  const auto type = [&] {
    const ReadingKey here = typed.here.value();
    const std::string line = drawn_here(typed);
    expected[here] = *parse_number(line);
    typed = fitwright::type_line(typed, line).value().next;
    type_text(line);
    press_key("Return");
  };
  const auto all_kept = [&] { return pump_until([&] { return readings_in(as_kept(path, setup)) == expected; }); };

  Program first(path, settings);
  REQUIRE(first.ready());
  press_key("4", ctrl_key);  // was elsewhere before
  press_key("3", ctrl_key);
  for (int i = 0; i < 15; ++i) type();
  REQUIRE(all_kept());
  type_text("12.3");  // the line being typed
  first.kill_now();
  CHECK(readings_in(as_kept(path, setup)) == expected);
  CHECK(as_kept(path, setup).here == typed.here);

  // What is typed now lands on the reading that was in hand.
  Program second(path, settings);
  REQUIRE(second.ready());
  for (int i = 0; i < 3; ++i) type();
  REQUIRE(all_kept());
  // Killed while lines are on their way: what is there is what was typed, up to some line.
  const auto so_far = expected;
  for (int i = 0; i < 3; ++i) type();
  second.kill_now();
  const auto kept = readings_in(as_kept(path, setup));
  CHECK(kept.size() >= so_far.size());
  for (const auto& [key, mm] : kept) {
    REQUIRE(expected.contains(key));
    CHECK(mm == expected[key]);
  }
}
