// An evening to readings and back: the estimator and the files take it, a crash costs nothing, every change is a fact.

#include <catch2/catch.hpp>
#include <map>

#include "base/file.hpp"
#include "base/number.hpp"
#include "bench/measuring/measure_keeping.hpp"
#include "bench/measuring/measure_steps.hpp"
#include "gui/measuring_helpers.hpp"
#include "model/estimate.hpp"
#include "reading/csv.hpp"

using namespace fitwright;
using namespace evening;

namespace {

/// An evening with everything in it that can be.
Measuring eventful(const std::shared_ptr<const MeasurePlan>& plan) {
  Measuring m = read_on(begin_measuring(plan), 5, 0.07);
  m = skip_here(m).value().next;
  m = typed(m, "1000.1");  // doubtful, kept
  m = keep_doubtful(m, doubts_of(m).back()).value().next;
  m = typed(m, "1.00");  // doubtful, unanswered
  m = one_more_here(m).value().next;
  m = typed(m, drawn_here(m));
  m = part_damaged(at(m, "SY10"), "cracked while pressing").value().next;
  m = at(m, "Y40", 2);
  m = read_on(m, 3, 0.05);
  return read_again(m, doubts_of(m).front()).value().next;  // and the hand is in the middle of something
}

}  // namespace

TEST_CASE("readings of an evening go to CSV and back, with the same place in hand") {
  for (const auto& p : {first_evening(), plan({part("bores"), part("walls", 2, 270)}, {jaws()})}) {
    Measuring m = begin_measuring(p);
    for (std::size_t i = 0; i <= p->order.size(); ++i) {
      const auto file = parse_readings(to_csv(readings_of(m)), "autosave");
      if (i > 0) {
        REQUIRE(file);
        const Resumed resumed = with_readings(p, *file).value();
        CHECK(resumed.notes.empty());
        CHECK(resumed.measuring == m);
      }
      if (m.here) m = typed(m, drawn_here(m));
    }
  }
}

TEST_CASE("with its bookmark an eventful evening comes back as it was") {
  const auto p = plan({part("frame"), part("frame", 2, 90)}, {jaws()});
  const Measuring m = eventful(p);
  const auto file = parse_readings(to_csv(readings_of(m)), "autosave");
  REQUIRE(file);
  const std::string bookmark = bookmark_of(m);
  const Measuring back = with_bookmark(with_readings(p, *file).value().measuring, bookmark);
  CHECK(back == m);
  CHECK(bookmark_of(back) == bookmark);
  CHECK(doubts_of(back).size() == doubts_of(m).size());

  SECTION("a bookmark of another evening, or a broken one, does no harm") {
    for (const std::string& text : {std::string("here\t1\t1\tQ9\nskipped\tx\n\n\t\t"), bookmark.substr(0, 20)}) {
      const Measuring other = with_bookmark(begin_measuring(p), text);
      CHECK(other.here);
      CHECK(marks_of(other).more.empty());
    }
  }
}

TEST_CASE("without its bookmark the hand goes on after the last reading") {
  Measuring m = skip_here(read_on(begin_measuring(first_evening()), 5)).value().next;
  m = typed(m, drawn_here(m));
  const Measuring back = with_readings(m.plan, readings_of(m)).value().measuring;
  CHECK(back.here == m.here);
}

TEST_CASE("readings that are not on the plan stay beside it, those that contradict it are refused") {
  const auto p = plan({part("frame")}, {});
  const std::string head = "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm,turned_deg,edge_a,edge_b\n";
  const auto beside = parse_readings(head + "H5,hole,z,5,1,1,4.8,0,,\nX40,outer,x,40,3,1,40.1,90,x2,x5\n", "f");
  const Resumed resumed = with_readings(p, *beside).value();
  CHECK(resumed.notes.size() == 2);
  CHECK(to_csv(readings_of(resumed.measuring)) == to_csv(*beside));

  const auto against = parse_readings(
      head + "X40,outer,x,40,1,1,40.1,90,x2,x5\nX100a,outer,x,99,1,1,99.1,0,x7,x8\nSX40,outer,x,40,1,1,40,0,x1,x2\n",
      "f");
  const auto refused = with_readings(p, *against);
  REQUIRE_FALSE(refused);
  REQUIRE(refused.problems().size() == 3);
  CHECK(refused.problems()[0].text() ==
        "f:2: X40 of copy 1, 1st reading, lay at 0\u00b0 here, but at 90\u00b0 there; correct the one or the other");
}

TEST_CASE("a file of readings becomes a plan of its own, with nothing due but what is missing") {
  const ReadingSet demo =
      parse_readings(read_whole(FW_SOURCE "/gui/demo/heron-slate-14.csv").value(), "heron-slate-14.csv").value();
  const auto p = std::make_shared<const MeasurePlan>(plan_from_readings(demo).value());
  const Resumed resumed = with_readings(p, demo).value();
  CHECK(resumed.notes.empty());
  CHECK(readings_of(resumed.measuring).rows.size() == demo.rows.size());
  for (const DueLine& line : due_lines(resumed.measuring))
    if (line.state == DueState::due) CHECK_FALSE(line.planned);  // third readings only
}

TEST_CASE("the estimator takes an evening as it takes the file of it") {
  Measuring m = begin_measuring(first_evening());
  for (int i = 0; m.here; ++i) m = typed(m, drawn_here(m, 0.1 + 0.01 * (i % 3)));
  const auto from_evening = estimate(readings_of(m), {});
  const auto from_file = estimate(*parse_readings(to_csv(readings_of(m)), "f"), {});
  REQUIRE(from_evening);
  REQUIRE(from_file);
  REQUIRE(from_evening->parameters.size() == from_file->parameters.size());
  for (std::size_t i = 0; i < from_file->parameters.size(); ++i)
    CHECK(from_evening->parameters[i].value == from_file->parameters[i].value);
}

TEST_CASE("replaying the facts of every step gives the readings of the evening") {
  const auto p = plan({part("frame"), part("frame", 2, 90)}, {jaws()});
  std::vector<Measuring> steps{begin_measuring(p)};
  const auto then = [&](const Result<MeasureStep>& step) {
    REQUIRE(step);
    steps.push_back(step->next);
  };
  for (int i = 0; i < 6; ++i) then(type_line(steps.back(), drawn_here(steps.back())));
  then(type_line(steps.back(), "10.01"));  // at X100a
  then(take_proposal(steps.back(), doubts_of(steps.back()).back()));
  then(amend_reading(steps.back(), key_of(steps.back().taken[3]->reading), "10.07"));
  then(delete_reading(steps.back(), key_of(steps.back().taken[4]->reading)));
  for (std::size_t i = steps.size() - 1; i-- > 6;) steps.push_back(steps[i]);  // undo

  std::map<ReadingKey, double> kept;
  const auto replay = [&](const Measuring& before, const Measuring& after) {
    for (const ReadingChange& c : changes_between(before, after)) {
      switch (c.what) {
        case ReadingChange::What::added:
          CHECK(kept.emplace(c.key, *c.new_mm).second);
          break;
        case ReadingChange::What::amended:
          CHECK(kept.at(c.key) == *c.old_mm);
          CHECK_FALSE(c.why.empty());
          kept[c.key] = *c.new_mm;
          break;
        case ReadingChange::What::removed:
          CHECK(kept.at(c.key) == *c.old_mm);
          kept.erase(c.key);
          break;
      }
    }
  };
  for (std::size_t i = 1; i < steps.size(); ++i) {
    replay(steps[i - 1], steps[i]);
    std::map<ReadingKey, double> now;
    for (const auto& t : steps[i].taken) now[key_of(t->reading)] = t->reading.reading_mm;
    CHECK(kept == now);
  }
}
