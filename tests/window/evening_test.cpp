// A person's whole evening, by keyboard alone: from the first start over sixty readings with two slips to a correction
// that the next print proves. Then the record holds what was typed, and fitw says the same to the last digit.

#include <wx/config.h>

#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <map>
#include <nlohmann/json.hpp>

#include "base/number.hpp"
#include "bench/analysis.hpp"
#include "record/record.hpp"
#include "report/estimate_report.hpp"
#include "window/bench.hpp"
#include "window/keyboard.hpp"
#include "window/practice_part.hpp"

using namespace fitwright;
using namespace window_test;

namespace {

constexpr std::uint64_t seed = 20261125;
constexpr unsigned thought_ms = 400;  ///< a hand that has read a question; a caliper's second line end is far sooner

/// The window on a record of its own that holds nothing yet, as at the first start of all.
class FirstEvening {
 public:
  explicit FirstEvening(const std::string& path) : frame_(new Frame(Bench(record::open_or_memory(path).record))) {
    frame_->Show();
    frame_->Raise();
    frame_->go_to(Stage::setup);
    pump();
  }
  ~FirstEvening() {
    frame_->Destroy();
    pump();
    wxConfigBase::Get()->DeleteEntry("/unit/inches");
  }
  FirstEvening(const FirstEvening&) = delete;
  FirstEvening& operator=(const FirstEvening&) = delete;

  Frame* operator->() { return frame_; }
  Frame& operator*() { return *frame_; }

 private:
  Frame* frame_;
};

const Measuring& evening(Frame& frame) { return frame.document().content().measuring; }

/// Types a line at the field and waits until it is taken.
void type_line(Frame& frame, const std::string& line) {
  const auto revision = frame.document().revision();
  type_text(line);
  press_key("Return");
  REQUIRE(pump_until([&] { return frame.document().revision() != revision; }));
  REQUIRE(frame.measuring().field().IsEmpty());
}

/// A reading as a caliper shows it.
std::string shown_as(double mm) { return fixed(mm, 2); }

/// The first two digits the other way round: 39.86 as 93.86.
std::string digits_swapped(std::string line) {
  std::swap(line[0], line[1]);
  return line;
}

/// The line before Ctrl+N brought `place` to the front.
void go(Frame& frame, const std::string& digit, Stage place) {
  press_key(digit, ctrl_key);
  REQUIRE(pump_until([&] { return frame.place() == place; }));
}

/// "It is printed": from the choice of the coupon to its measuring.
void print_and_measure(Frame& frame) {
  go(frame, "2", Stage::make);
  REQUIRE(pump_until([&] { return frame.making().up_to_date() && frame.making().printed_button().IsEnabled(); }));
  REQUIRE(frame.making().coupon()->design == "frame");
  REQUIRE(tab_to("It is printed: measure it"));
  press_key("space");
  REQUIRE(pump_until([&] { return frame.place() == Stage::measure; }));
  REQUIRE(pump_until([&] { return frame.measuring().field().HasFocus(); }));
}

std::string run(const std::string& command) {
  std::FILE* pipe = popen(command.c_str(), "r");
  REQUIRE(pipe);
  std::string out;
  std::array<char, 4096> part{};
  for (std::size_t n = 0; (n = std::fread(part.data(), 1, part.size(), pipe)) > 0;) out.append(part.data(), n);
  CHECK(pclose(pipe) == 0);
  return out;
}

/// Readings of the record by copy, feature and repeat.
std::map<ReadingKey, double> in_record(Bench& bench) {
  std::map<ReadingKey, double> out;
  const auto caliper = bench.caliper() ? bench.caliper()->thing : record::Id{};
  const auto kept = evening_of(bench.record(), bench.setup()->setup.thing, caliper);
  REQUIRE(kept);
  for (const Reading& r : readings_of(kept->kept).rows) out[key_of(r)] = r.reading_mm;
  return out;
}

}  // namespace

TEST_CASE("a whole evening by keyboard: three questions, a coupon, sixty readings, a correction, its proof",
          "[evening]") {
  const std::string path = folder() + "/evening.fitwright";
  FirstEvening frame(path);

  // Three questions. The caliper shows millimetres: that stands already.
  REQUIRE(frame->setting_up().asking());
  REQUIRE(pump_until([] { return wxWindow::FindFocus() != nullptr; }));
  REQUIRE(tab_to("Name of the printer"));
  REQUIRE(type_over("Heron"));
  REQUIRE(tab_to("Name of the spool"));
  REQUIRE(type_over("PLA slate, batch 14"));
  press_key("Return");
  REQUIRE(pump_until([&] { return frame->place() == Stage::make; }));
  REQUIRE(frame->bench().setup());
  CHECK(frame->bench().setup()->setup.value.name == "Heron, PLA slate, batch 14");

  // Two copies of the frame coupon, the second turned: Make says so by itself.
  print_and_measure(*frame);
  print_and_measure(*frame);
  REQUIRE(evening(*frame).plan->parts.size() == 2);
  CHECK(evening(*frame).plan->parts[1].turned_deg == 90);

  // Sixty readings. Two fingers slip; both times the question is answered by one key, two readings later.
  const State usual = frame->bench().setup()->in_force.state;
  const std::shared_ptr<const Coupon> coupon = evening(*frame).plan->parts.front().coupon;
  const PracticePart printed(*coupon, {0, 90}, usual, usual, seed);
  std::map<ReadingKey, double> typed;
  constexpr int readings = 60, first_slip_from = 12, second_slip_from = 33;
  int tenfold = readings, swapped = readings;  // where the fingers slip: at lengths of two digits, no two alike
  std::size_t answered = 0;
  for (int i = 0; i < readings; ++i) {
    const ReadingKey here = evening(*frame).here.value();
    const double mm = printed.shown_mm(here);
    std::string line = shown_as(mm);
    const bool two_digits = mm > 20 && mm < 99;
    if (two_digits && i >= first_slip_from && tenfold == readings) {
      tenfold = i;
      line = fixed(10 * mm, 1);
    } else if (two_digits && i >= second_slip_from && swapped == readings && digits_swapped(line) != line) {
      swapped = i;
      line = digits_swapped(line);
    }
    INFO(here.feature_id << " read as " << line << ", the " << i << "th");
    type_line(*frame, line);
    typed[here] = parse_number(shown_as(mm)).value();
    if (i == tenfold || i == swapped) REQUIRE(frame->measuring().hand().view().doubts.size() == 1);
    if (i == tenfold + 2 || i == swapped + 2) {
      press_key("space", no_key, thought_ms);
      REQUIRE(pump_until([&] { return frame->measuring().hand().view().doubts.empty(); }));
      ++answered;
    }
  }
  CHECK(answered == 2);
  CHECK(evening(*frame).taken.size() == readings);
  CHECK(in_record(frame->bench()) == typed);

  // What it says.
  go(*frame, "4", Stage::understand);
  REQUIRE(settled(*frame));
  REQUIRE_FALSE(frame->view().findings.empty());

  // The command line says the same, to the last digit, while the window is open.
  const std::string json = run(std::string(FW_FITW) + " estimate --setup 'Heron, PLA slate, batch 14' --record '" +
                               path + "' --json 2>/dev/null");
  const auto of_fitw = nlohmann::json::parse(json);
  const Analysis a = analyse(frame->document().content(), frame->document().revision());
  REQUIRE(a.estimates);
  const auto of_window = nlohmann::json::parse(estimate_json(*a.estimates, a.read, a.findings));
  for (const char* part : {"method", "counts", "parameters", "combinations", "covariance", "priors", "not_separable",
                           "scatter", "beyond_readings"}) {
    INFO(part);
    CHECK(of_window[part].dump(1) == of_fitw[part].dump(1));
  }

  // The recommended change, marked applied: old and new values are shown first.
  go(*frame, "5", Stage::correct);
  INFO(frame->view().corrections.recommended << ", " << frame->view().corrections.headline);
  press_key("m", alt_key);  // the letter underlined in "Mark applied"
  REQUIRE(pump_until([&] { return frame->correcting().life().asked().has_value(); }));
  press_key("y", alt_key);
  REQUIRE(pump_until([&] { return !record::differences(frame->bench().setup()->in_force.state, usual).empty(); }));

  // The proof: one more print in the new state, all of it measured.
  const State now = frame->bench().setup()->in_force.state;
  print_and_measure(*frame);
  const auto& parts = evening(*frame).plan->parts;
  REQUIRE(parts.size() == 1);
  REQUIRE(parts.front().copy == 3);
  const PracticePart proof(*coupon, {0, 90, parts.front().turned_deg}, usual, now, seed);
  while (evening(*frame).here) type_line(*frame, shown_as(proof.shown_mm(*evening(*frame).here)));
  CHECK(frame->measuring().hand().view().finished);

  go(*frame, "5", Stage::correct);
  const std::string list = "Corrections of this setup and where they stand";
  const bool there = tab_to(list) || tab_to(list, true);
  INFO(tab_path());
  REQUIRE(there);
  press_key("Home");
  press_key("Down");
  press_key("Up");
  REQUIRE(pump_until([&] { return frame->correcting().life().chosen() != nullptr; }));
  press_key("v", alt_key);
  REQUIRE(pump_until([&] {
    const auto rows = life_rows(frame->bench());
    return rows && !rows->empty() && rows->front().standing == "proved";
  }));
}
