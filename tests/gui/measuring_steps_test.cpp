// Typing an evening: lines and units, doubts that hold nothing up, third readings, skips, damage, undo.

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "base/number.hpp"
#include "bench/measuring/measure_keeping.hpp"
#include "bench/measuring/measure_steps.hpp"
#include "bench/measuring/typed_line.hpp"
#include "gui/measuring_helpers.hpp"
#include "reading/csv.hpp"

using namespace fitwright;
using namespace evening;

namespace {

Measuring on_frame() { return begin_measuring(plan({part("frame")}, {})); }

std::vector<std::string> ids_due(const Measuring& m) {
  std::vector<std::string> ids;
  for (const DueLine& line : due_lines(m))
    if (line.state == DueState::due) ids.push_back(line.key.feature_id + "/" + std::to_string(line.key.repeat));
  return ids;
}

double value_at(const Measuring& m, const ReadingKey& key) {
  const Taken* t = taken_at(m, key);
  REQUIRE(t);
  return t->reading.reading_mm;
}

MeasureDoubt only_doubt(const Measuring& m) {
  const auto doubts = doubts_of(m);
  REQUIRE(doubts.size() == 1);
  return doubts[0];
}

}  // namespace

TEST_CASE("a line is read as fingers and cables type it") {
  // One inch is 25.4 mm by definition (international inch, 1959).
  for (const char* text : {"40.12", "40,12", " 40.12 ", "+40.12 mm", "0040.12", "40.12mm\r", "40.12\r\n", "+ 40.12",
                           "40.12\t", "40.12 MM", "040,12\u00a0mm"}) {
    INFO(text);
    const auto mm = length_from_line(text, false);
    REQUIRE(mm);
    CHECK(*mm == 40.12);
  }
  for (const char* text : {"1.5795 in", "1.5795\"", "1,5795 inch", "1.5795 IN", "1.5795\u2033", "+1.5795in\r\n"}) {
    INFO(text);
    const auto mm = length_from_line(text, false);
    REQUIRE(mm);
    CHECK(*mm == Approx(1.5795 * 25.4).epsilon(1e-12));
  }
  CHECK(*length_from_line("1.5", true) == Approx(38.1).epsilon(1e-12));
  CHECK(*length_from_line("1.5 mm", true) == 1.5);
  CHECK(*length_from_line("\u22120.02", false) == -0.02);
}

TEST_CASE("what could mean two things, or nothing, is refused in words") {
  struct Case {
    const char* text;
    const char* says;
  };
  for (const Case& c :
       {Case{"", "the line is empty"}, Case{"  \r\n", "the line is empty"}, Case{"mm", "not a reading"},
        Case{"forty", "not a reading"}, Case{"4o.12", "not a reading"}, Case{"40.12 cm", "not a reading"},
        Case{"1,234.5", "a point and a comma"}, Case{"1.234,5", "a point and a comma"},
        Case{"40.12 40.13", "more than one number"}, Case{"4 0", "more than one number"},
        Case{"1.2.3", "not a reading"}, Case{"4e1", "not a reading"}, Case{"nan", "not a reading"},
        Case{"--5", "not a reading"}, Case{"1 37/64 in", "a fraction"}, Case{"0x28", "not a reading"}}) {
    INFO(c.text);
    const auto mm = length_from_line(c.text, false);
    REQUIRE_FALSE(mm);
    CHECK(mm.problems().front().text().find(c.says) != std::string::npos);
  }
}

TEST_CASE("a line that is no reading changes nothing and leaves the hand where it is") {
  const Measuring m = read_on(on_frame(), 3);
  for (const char* text : {"", "forty", "-40.1", "99999999", "40.1 40.2", "0"}) {
    const auto step = type_line(m, text);
    INFO(text);
    REQUIRE_FALSE(step);
    CHECK_FALSE(step.problems().front().remedy.empty());
  }
  CHECK(typed(m, drawn_here(m)).taken.size() == 4);
}

TEST_CASE("each line goes to the next place, and the last one says so") {
  Measuring m = begin_measuring(first_evening());
  const std::size_t total = m.plan->order.size();
  for (std::size_t i = 0; i < total; ++i) {
    CHECK(m.here == key_of(*m.plan, m.plan->order[i]));
    m = typed(m, drawn_here(m));
  }
  CHECK_FALSE(m.here);
  const auto more = type_line(m, "40.12");
  REQUIRE_FALSE(more);
  CHECK(more.problems().front().text().find("everything is read") != std::string::npos);
}

TEST_CASE("a caliper that sends sixty lines at once loses none of them") {
  const auto p = plan({part("frame"), part("frame", 2, 90)}, {jaws()});
  Measuring m = begin_measuring(p);
  std::mt19937 random(20261125);
  std::uniform_int_distribution<int> hundredths(-12, 12);
  std::vector<std::string> sent;
  for (int i = 0; i < 60; ++i) {
    std::string line = drawn_here(m, hundredths(random) / 100.0);
    if (i == 20 || i == 33) line = fixed(*parse_number(line) * 10, 2);  // two slips, answered by nobody
    if (i % 3 == 0) line = "+" + line + " mm\r";
    sent.push_back(line);
    m = typed(m, line);
  }
  REQUIRE(m.taken.size() == 60);
  for (std::size_t i = 0; i < 60; ++i) CHECK(m.taken[i]->reading.reading_mm == *length_from_line(sent[i], false));
  const auto doubts = doubts_of(m);
  CHECK(std::count_if(doubts.begin(), doubts.end(), [](const MeasureDoubt& d) { return d.rule == Rule::entry; }) == 2);
}

TEST_CASE("third readings put nobody out of step who presses the button without looking") {
  // Every second reading is 0.06 off its first: all places want a third, and none comes before its round is over.
  const auto p = plan({part("frame")}, {});
  Measuring m = begin_measuring(p);
  for (const Due& due : p->order) {
    if (p->spots[due.spot].grip == Grip::inside) break;
    CHECK(m.here == key_of(*p, due));
    m = typed(m, drawn_here(m, due.repeat == 1 ? 0.10 : 0.16));
  }
  REQUIRE(m.here);
  CHECK(m.here->repeat == 3);
}

TEST_CASE("the gate stands where the contract puts it") {
  // |r - L| > max(0.5, 0.015 L); walls max(0.15, 0.4 L): L = 40 gives 0.6, L = 10 gives 0.5, a wall of 0.45 gives 0.18.
  const auto doubtful = [](const std::shared_ptr<const MeasurePlan>& p, const char* id, const char* text) {
    return !doubts_of(typed(at(begin_measuring(p), id), text)).empty();
  };
  const auto frame = plan({part("frame")}, {});
  CHECK_FALSE(doubtful(frame, "X40", "40.60"));
  CHECK(doubtful(frame, "X40", "40.61"));
  CHECK_FALSE(doubtful(frame, "X40", "39.40"));
  CHECK(doubtful(frame, "X40", "39.39"));
  CHECK_FALSE(doubtful(frame, "X10a", "10.50"));
  CHECK(doubtful(frame, "X10a", "10.51"));
  CHECK_FALSE(doubtful(frame, "X100a", "101.50"));
  CHECK(doubtful(frame, "X100a", "101.51"));
  const auto walls = plan({part("walls")}, {});
  CHECK_FALSE(doubtful(walls, "W45a", "0.63"));
  CHECK(doubtful(walls, "W45a", "0.64"));
  CHECK_FALSE(doubtful(walls, "W90a", "1.26"));
  CHECK(doubtful(walls, "W90a", "1.27"));
}

TEST_CASE("a doubt asks in one sentence and never holds up the next line") {
  Measuring m = at(on_frame(), "X40");
  m = typed(m, "41.12");
  const MeasureDoubt doubt = only_doubt(m);
  CHECK(doubt.sentence == "41.12 is 1.12 from drawn. 40.12?");
  CHECK(doubt.proposal_mm == 40.12);
  CHECK(m.here->feature_id == "X100a");

  const Measuring later = read_on(m, 5);
  CHECK(only_doubt(later).key == doubt.key);  // it waits beside its reading

  SECTION("kept") {
    const Measuring kept = keep_doubtful(later, doubt).value().next;
    CHECK(doubts_of(kept).empty());
    CHECK(value_at(kept, doubt.key) == 41.12);
    CHECK(kept.here == later.here);
  }
  SECTION("the proposal is taken") {
    const Measuring right = take_proposal(later, doubt).value().next;
    CHECK(doubts_of(right).empty());
    CHECK(value_at(right, doubt.key) == 40.12);
    CHECK(right.here == later.here);
    const auto changes = changes_between(later, right);
    REQUIRE(changes.size() == 1);
    CHECK(changes[0].why == "proposal taken: one millimetre off");
  }
  SECTION("read again, then on from where the hand was") {
    const Measuring again = read_again(later, doubt).value().next;
    CHECK(again.here == doubt.key);
    CHECK(value_at(again, doubt.key) == 41.12);  // kept until another is there
    const Measuring right = typed(again, "40.13");
    CHECK(value_at(right, doubt.key) == 40.13);
    CHECK(right.here == later.here);
    CHECK(right.taken.size() == later.taken.size());
    CHECK(changes_between(again, right).at(0).why == "read again");
  }
  SECTION("answered after all, the hand goes back to where it was") {
    const Measuring again = read_again(later, doubt).value().next;
    CHECK(keep_doubtful(again, doubt).value().next.here == later.here);
    CHECK(take_proposal(again, doubt).value().next.here == later.here);
    const Measuring left = go_on(again).value().next;
    CHECK(left == later);
    CHECK_FALSE(go_on(left));
  }
  SECTION("answers to a reading that is gone say so") {
    const Measuring without = delete_reading(later, doubt.key).value().next;
    CHECK_FALSE(keep_doubtful(without, doubt));
    CHECK_FALSE(take_proposal(without, doubt));
  }
}

TEST_CASE("without a proposal the sentence only asks") {
  const MeasureDoubt doubt = only_doubt(typed(at(on_frame(), "X40"), "47.70"));
  CHECK(doubt.sentence == "47.70 is 7.70 from drawn.");
  CHECK_FALSE(take_proposal(typed(at(on_frame(), "X40"), "47.70"), doubt));
}

TEST_CASE("the present fit helps where the drawn size cannot tell") {
  // 101.90 is 1.90 from 100: without the fit neither 100.90 nor another slip is near enough (0.15 + 0.006 L = 0.75).
  const Measuring m = typed(at(on_frame(), "X100a"), "101.90");
  CHECK_FALSE(only_doubt(m).proposal_mm);
  const auto helped = doubts_of(m, {{PlaceKey{"X100a", 1, ""}, 100.85}});
  REQUIRE(helped.size() == 1);
  CHECK(helped[0].proposal_mm == 100.90);
}

TEST_CASE("a third reading is due only where two differ by more than 0.05 mm, at the end of the round") {
  const auto pair = [](const char* first, const char* second) {
    return typed(at(typed(at(on_frame(), "X40"), first), "X40", 2), second);
  };
  const auto thirds = [](const Measuring& m) {
    const auto ids = ids_due(m);
    return std::count(ids.begin(), ids.end(), "X40/3");
  };
  CHECK(thirds(pair("40.10", "40.15")) == 0);  // the contract's limit: more than 0.05
  CHECK(thirds(pair("40.10", "40.16")) == 1);
  CHECK(thirds(pair("40.16", "40.10")) == 1);

  const Measuring m = pair("40.10", "40.16");
  const auto lines = due_lines(m);
  const std::size_t third = find_line(lines, ReadingKey{1, "X40", 3});
  REQUIRE(third != none_there);
  CHECK_FALSE(lines[third].planned);
  // After the last outside place, before the first inside one.
  CHECK(m.plan->spots[lines[third - 1].due.spot].grip == Grip::outside);
  CHECK(m.plan->spots[lines[third + 1].due.spot].grip == Grip::inside);

  SECTION("amending one of the two makes it fall away") {
    CHECK(thirds(amend_reading(m, {1, "X40", 2}, "40.12").value().next) == 0);
  }
  SECTION("a doubtful reading is answered first") {
    const Measuring doubtful = pair("40.10", "41.10");
    CHECK(thirds(doubtful) == 0);
    CHECK(thirds(keep_doubtful(doubtful, only_doubt(doubtful)).value().next) == 1);
    CHECK(thirds(take_proposal(doubtful, only_doubt(doubtful)).value().next) == 0);
  }
  SECTION("three readings tell which one is off, beyond 0.08 mm") {
    const Measuring off = typed(at(pair("40.10", "40.21"), "X40", 3), "40.12");
    const MeasureDoubt doubt = only_doubt(off);
    CHECK(doubt.key.repeat == 2);
    CHECK(doubt.rule == Rule::repeat);
    CHECK(doubt.sentence == "40.21 is 0.09 from the other readings here. 40.12?");
    CHECK(doubts_of(typed(at(pair("40.10", "40.20"), "X40", 3), "40.12")).empty());  // 0.08 is within
  }
  SECTION("steel is read as often as planned") {
    Measuring zero = begin_measuring(plan({}, {jaws(2)}));
    zero = typed(typed(zero, "0.00"), "0.10");
    CHECK_FALSE(zero.here);
  }
}

TEST_CASE("skipped readings are left out until somebody goes there") {
  Measuring m = read_on(on_frame(), 2);
  const ReadingKey skipped = *m.here;
  m = skip_here(m).value().next;
  CHECK(m.here != skipped);
  while (m.here) m = typed(m, drawn_here(m));
  CHECK(m.taken.size() == m.plan->order.size() - 1);
  m = go_to(m, skipped).value().next;
  m = typed(m, drawn_here(m));
  CHECK_FALSE(m.here);
  CHECK(m.taken.size() == m.plan->order.size());
  CHECK_FALSE(skip_here(m));
}

TEST_CASE("a damaged place drops what is left of it on this copy, and only there") {
  const auto p = plan({part("frame"), part("frame", 2, 90)}, {});
  Measuring m = at(begin_measuring(p), "X40");
  const auto step = part_damaged(m, "lip torn");
  REQUIRE(step);
  CHECK(step->said.find("lip torn, 2 readings left out") != std::string::npos);
  m = step->next;
  for (const DueLine& line : due_lines(m))
    if (line.key.feature_id == "X40") CHECK((line.state == DueState::damaged) == (line.key.copy == 1));
  while (m.here) m = typed(m, drawn_here(m));
  CHECK(m.taken.size() == p->order.size() - 2);
  CHECK_FALSE(part_damaged(begin_measuring(plan({}, {jaws()}))));
}

TEST_CASE("one more reading comes next, and counts beside those planned") {
  Measuring m = at(on_frame(), "X40");
  m = one_more_here(m).value().next;
  CHECK(m.here == ReadingKey{1, "X40", 1});
  m = typed(m, "40.12");
  CHECK(m.here == ReadingKey{1, "X40", 3});
  m = typed(m, "40.13");
  CHECK(m.here->feature_id == "X100a");
  const auto ids = ids_due(m);
  CHECK(std::count(ids.begin(), ids.end(), "X40/2") == 1);

  while (m.here) m = typed(m, drawn_here(m));
  m = one_more_here(m).value().next;  // of the last place
  REQUIRE(m.here);
  CHECK(m.here->repeat == 3);
  m = typed(m, drawn_here(m));
  CHECK_FALSE(m.here);
}

TEST_CASE("one more reading of a place left out as damaged takes the place up again") {
  Measuring m = typed(at(on_frame(), "X40"), "40.12");
  m = part_damaged(at(m, "X40", 2)).value().next;
  m = one_more_here(at(m, "X40")).value().next;
  CHECK(marks_of(m).damaged.empty());
  CHECK(m.here == ReadingKey{1, "X40", 3});
}

TEST_CASE("a reading taken out is due again") {
  Measuring m = read_on(on_frame(), 4);
  const ReadingKey second = key_of(m.taken[1]->reading);
  m = delete_reading(m, second).value().next;
  CHECK(m.taken.size() == 3);
  CHECK(to_first_due(m).value().next.here == second);
  CHECK_FALSE(delete_reading(m, second));
  while (m.here) m = typed(m, drawn_here(m));
  CHECK(m.taken.size() == m.plan->order.size());
}

TEST_CASE("undo of thirty steps and redo give back equal values") {
  Measuring m = begin_measuring(first_evening());
  std::mt19937 random(4);
  std::vector<Measuring> steps{m};
  std::vector<std::string> csv{to_csv(readings_of(m))};
  for (int i = 0; i < 30; ++i) {
    const auto lines = due_lines(m);
    const auto& any = lines[std::uniform_int_distribution<std::size_t>(0, lines.size() - 1)(random)];
    const auto doubts = doubts_of(m);
    Result<MeasureStep> step = Problem{};
    if (i % 7 == 3)
      step = skip_here(m);
    else if (i % 7 == 4)
      step = go_to(m, any.key);
    else if (i % 11 == 5)
      step = one_more_here(m);
    else if (i % 11 == 8 && !m.taken.empty())
      step = delete_reading(m, key_of(m.taken.front()->reading));
    else if (!doubts.empty())
      step = i % 2 == 0 ? take_proposal(m, doubts.back()) : keep_doubtful(m, doubts.back());
    if (!step) step = type_line(m, i % 5 == 2 ? fixed(*parse_number(drawn_here(m)) + 1, 2) : drawn_here(m, 0.08));
    REQUIRE(step);
    m = step->next;
    steps.push_back(m);
    csv.push_back(to_csv(readings_of(m)));
  }
  // Undo keeps old values: the facts of going back and forth must agree with them.
  for (std::size_t i = steps.size() - 1; i > 0; --i) {
    CHECK(to_csv(readings_of(steps[i - 1])) == csv[i - 1]);
    const auto forth = changes_between(steps[i - 1], steps[i]), back = changes_between(steps[i], steps[i - 1]);
    REQUIRE(forth.size() == back.size());
    CHECK(forth.size() <= 1);
    if (forth.size() == 1) {
      CHECK(forth[0].key == back[0].key);
      CHECK(forth[0].old_mm == back[0].new_mm);
      CHECK(forth[0].new_mm == back[0].old_mm);
    }
  }
}
