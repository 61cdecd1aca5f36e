// What the place for measuring says: heading, lines, what comes next, doubts, time, and the sentence for the ear.

#include <catch2/catch.hpp>

#include "base/number.hpp"
#include "bench/measuring/measure_steps.hpp"
#include "bench/measuring/measure_view.hpp"
#include "bench/measuring/measure_words.hpp"
#include "design/design.hpp"
#include "gui/measuring_helpers.hpp"

using namespace fitwright;
using namespace evening;

TEST_CASE("the view names part, place, readings and what comes next") {
  const auto p = plan({part("frame"), part("frame", 2, 90)}, {jaws()});
  Measuring m = typed(at(begin_measuring(p), "X40", 1, 2), "40.12");
  m = at(m, "X40", 2, 2);
  const MeasureView v = measure_view(m);
  CHECK(v.heading == "Frame, copy 2 of 2 (turned 90\u00b0)");
  CHECK(v.count == "1 of 75");
  CHECK(v.feature_id == "X40");
  CHECK(v.feature_words == "outer, over both blocks");
  CHECK(v.how == "outside jaws, along X");
  CHECK(v.drawn == "drawn 40.00");
  CHECK(v.so_far == "so far +0.12\u00a0\u00b1\u00a00.02");
  REQUIRE(v.lines.size() == 2);
  CHECK(v.lines[0].ordinal == "1st");
  CHECK(v.lines[0].value == "40.12");
  CHECK_FALSE(v.lines[0].here);
  CHECK(v.lines[1].value == "\u00b7");
  CHECK(v.lines[1].here);
  REQUIRE(v.next.size() == coming_shown);
  CHECK(v.next[0].words == "X100a outer");
  CHECK(v.next_line.find("next: X100a outer \u00b7 X100b outer") == 0);
  CHECK(v.next_line.find(" \u2026") != std::string::npos);
  CHECK(v.keys == "Enter take \u00b7 Backspace undo \u00b7 F2 skip \u00b7 F3 part damaged");
  CHECK(v.said ==
        "X40, outer, over both blocks, 2nd reading. Outside jaws, along X. Frame, copy 2 of 2 (turned 90\u00b0). 1 of "
        "75.");
  CHECK(v.shown.coupon == p->parts[1].coupon);
  CHECK(v.shown.copy == 2);
  REQUIRE(v.shown.jaw_place < v.shown.coupon->places.size());
  CHECK(v.shown.coupon->places[v.shown.jaw_place].feature_id == "X40");
}

TEST_CASE("a change of jaws or part is announced where it comes") {
  const auto p = plan({part("frame"), part("frame", 2, 90)}, {});
  Measuring m = begin_measuring(p);
  const MeasureView first = measure_view(m);
  CHECK(first.jaws_next == "Then inside jaws, after 24 readings.");
  while (measure_view(m).how.find("inside") == std::string::npos) {
    const MeasureView v = measure_view(m);
    m = typed(m, drawn_here(m));
    if (measure_view(m).how.find("inside") == std::string::npos) continue;
    CHECK(v.jaws_next == "Then inside jaws, with the next reading.");
    CHECK(v.next_line.find("next: (inside jaws) S") == 0);
  }
  while (measure_view(m).heading.find("copy 1") != std::string::npos) {
    const MeasureView v = measure_view(m);
    m = typed(m, drawn_here(m));
    if (measure_view(m).heading.find("copy 1") == std::string::npos)
      CHECK(v.next_line.find("next: (Frame, copy 2 of 2 (turned 90\u00b0)) SX") == 0);
  }
}

TEST_CASE("a doubt stands at its feature, and is named when the hand has gone on") {
  Measuring m = typed(at(begin_measuring(first_evening()), "X40"), "41.12");
  const MeasureView v = measure_view(m);
  REQUIRE(v.doubts.size() == 1);
  CHECK(v.doubts[0].where == "X40, 1st reading");
  CHECK(v.doubts[0].sentence == "41.12 is 1.12 from drawn. 40.12?");
  CHECK(v.doubts[0].keys == "Enter keeps, Space takes 40.12, Esc reads again");
  CHECK(v.keys == v.doubts[0].keys);
  CHECK(v.said.find("X40, 1st reading: 41.12 is 1.12 from drawn. 40.12? Enter keeps") == 0);

  const MeasureView there = measure_view(at(m, "X40"));
  CHECK(measure_view(at(keep_doubtful(m, v.doubts[0].doubt).value().next, "X40")).keys ==
        "Enter replaces 41.12 \u00b7 Esc leaves it");
  CHECK(there.doubts[0].where.empty());
  CHECK(there.lines[0].doubtful);
  CHECK(there.lines[0].remark == v.doubts[0].sentence);
  CHECK(there.so_far.empty());  // a doubtful reading is no basis for a mean

  m = typed(m, "1.00");
  CHECK(measure_view(m).doubts.at(0).where == "X100a, 1st reading");  // the newest is answered first
  CHECK(measure_view(m).doubts.at(1).where == "X40, 1st reading");
}

TEST_CASE("round ones say which way the jaws stand, steel says what to do") {
  const auto p = plan({part("bores")}, {jaws(), steel("block 20", Kind::gauge, 20)});
  const Measuring m = begin_measuring(p);
  const MeasureView zero = measure_view(m);
  CHECK(zero.heading == "Caliper");
  CHECK(zero.feature_words == "jaws wiped and closed");
  CHECK(zero.drawn == "true 0.00");
  CHECK(measure_view(at(m, "block 20")).feature_words == "steel outside");
  CHECK(measure_view(at(m, "P8", 1)).feature_words == "peg, along X");
  const MeasureView second = measure_view(at(m, "H8", 2));
  CHECK(second.feature_words == "hole, along Y");
  CHECK(second.how == "inside jaws, along Y");
  CHECK(second.shown.line == JawLine::along_y);
  const MeasureView pin = measure_view(at(m, "H2", 1));
  CHECK(pin.feature_words == "hole, largest graded shank that enters");
  CHECK(pin.how == "drill shank");
}

TEST_CASE("every place of every design has its words and its place in the drawing") {
  const auto p = plan({part("frame"), part("bores"), part("walls"), part("stair")}, {});
  for (const MeasureSpot& spot : p->spots) {
    INFO(spot.feature.id);
    CHECK_FALSE(feature_words(spot, 1).empty());
    CHECK(feature_words(spot, 1).find("outer, outside") == std::string::npos);
    CHECK_FALSE(how_words(spot, 1).empty());
    CHECK(spot.jaw_place < p->parts[spot.part].coupon->places.size());
  }
}

TEST_CASE("the time left follows the hand's own pace, pauses and bursts left out") {
  Measuring m = begin_measuring(first_evening());
  CHECK(seconds_per_reading(m) == usual_seconds_per_reading);
  CHECK(measure_view(m).time_left == "about 7 min left");  // 39 at ten seconds
  double now = 0;
  for (int i = 0; i < 15; ++i) {
    now += i == 7 ? 1800 : i == 9 ? 0.01 : 4;  // a pause for tea; two lines at once
    m = type_line(m, drawn_here(m), now).value().next;
  }
  CHECK(seconds_per_reading(m) == Approx(4));
  CHECK(measure_view(m).time_left == "about 2 min left");  // 24 at four seconds
  while (measure_view(m).total - measure_view(m).done > 3) m = typed(m, drawn_here(m));
  CHECK(measure_view(m).time_left == "less than a minute left");
}

TEST_CASE("the end says what was left out") {
  Measuring m = begin_measuring(plan({part("frame")}, {}));
  m = skip_here(m).value().next;
  m = part_damaged(at(m, "Y40")).value().next;
  while (m.here) m = typed(m, drawn_here(m));
  const MeasureView v = measure_view(m);
  CHECK(v.finished);
  CHECK(v.heading == "All is read");
  CHECK(v.count == "33 of 33");
  CHECK(v.left_out == "1 skipped, 2 damaged");
  CHECK(v.time_left.empty());
  CHECK(v.said == "All is read, 33 of 33. 1 skipped, 2 damaged.");
}

TEST_CASE("the mean so far carries the usual repeatability, moderated by what the readings show") {
  // sd 0.015 mm worth 10 degrees of freedom (priors.hpp). Two readings 0.04 apart: s^2 = (10 * 0.015^2 + 0.0008) / 11,
  // u = s / sqrt(2) = 0.0118, rounded up; two equal ones: 0.0101, rounded up.
  const auto so_far = [](const char* first, const char* second) {
    Measuring m = typed(at(begin_measuring(first_evening()), "X40"), first);
    m = typed(at(m, "X40", 2), second);
    return measure_view(at(m, "X40", 2)).so_far;
  };
  CHECK(so_far("40.10", "40.14") == "so far +0.12\u00a0\u00b1\u00a00.02");
  CHECK(so_far("39.90", "39.90") == "so far \u22120.10\u00a0\u00b1\u00a00.02");
}
