// The order of an evening: fewer moves than any list of features, repeats apart, every reading there once.

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "bench/measuring/measure_order.hpp"
#include "design/design.hpp"
#include "gui/measuring_helpers.hpp"

using namespace fitwright;
using namespace evening;

namespace {

/// Each place of each part in the order of the coupon's features, read `repeats` times at once.
std::vector<Due> feature_after_feature(const MeasurePlan& plan) {
  std::vector<Due> order;
  for (std::size_t part = 0; part < plan.parts.size(); ++part)
    for (const Feature& f : plan.parts[part].coupon->features)
      for (std::size_t i = 0; i < plan.spots.size(); ++i)
        if (plan.spots[i].part == part && plan.spots[i].feature.id == f.id)
          for (int k = 0; k < plan.spots[i].times; ++k) order.push_back({i, 1 + k, 0});
  return order;
}

/// The same, gone round as often as there are repeats.
std::vector<Due> round_and_round(const MeasurePlan& plan) {
  std::vector<Due> order = feature_after_feature(plan);
  std::stable_sort(order.begin(), order.end(), [](const Due& a, const Due& b) { return a.repeat < b.repeat; });
  return order;
}

std::vector<std::string> ids_of(const MeasurePlan& plan) {
  std::vector<std::string> ids;
  for (const Due& due : plan.order) ids.push_back(plan.spots[due.spot].feature.id + "/" + std::to_string(due.repeat));
  return ids;
}

}  // namespace

TEST_CASE("the first evening has as many readings as it was said to have") {
  // One copy, two repeats, three times zero: 36 to 40 readings.
  const auto p = first_evening();
  CHECK(p->order.size() >= 36);
  CHECK(p->order.size() <= 40);
  CHECK(p->spots[p->order[0].spot].feature.kind == Kind::zero);
  CHECK(p->spots[p->order[2].spot].feature.kind == Kind::zero);
  CHECK(p->spots[p->order[3].spot].feature.id == "X10a");
}

TEST_CASE("the frame needs one jaw change and never reads a place twice in a row") {
  const auto p = first_evening();
  const Moves ours = moves_of(p->spots, p->order);
  CHECK(ours.jaw_changes == 1);
  CHECK(ours.in_a_row == 0);

  const Moves twice_at_once = moves_of(p->spots, feature_after_feature(*p));
  const Moves rounds = moves_of(p->spots, round_and_round(*p));
  CHECK(twice_at_once.jaw_changes == 4);
  CHECK(rounds.jaw_changes == 8);
  CHECK(twice_at_once.in_a_row == 18);
  CHECK(ours.turns <= rounds.turns + 3);  // between the two diagonals, which are read in turn
}

TEST_CASE("all outside places along X come before those along Y, and the second round runs backwards") {
  const auto ids = ids_of(*first_evening());
  const auto at_of = [&](const std::string& id) { return std::find(ids.begin(), ids.end(), id) - ids.begin(); };
  for (const char* x : {"X10a/1", "X10b/1", "X40/1", "X100a/1", "X100b/1"}) CHECK(at_of(x) < at_of("Y10a/1"));
  for (const char* y : {"Y10a/1", "Y100b/1"}) CHECK(at_of(y) < at_of("D1/1"));
  CHECK(at_of("D2/2") < at_of("Y10a/2"));
  CHECK(at_of("Y100b/2") < at_of("X10a/2"));
  CHECK(at_of("X100b/2") < at_of("SX40/1"));  // the inside jaws begin where the part lies
  CHECK(at_of("SX10/1") < at_of("SY40/1"));
}

TEST_CASE("a second copy and another coupon begin with the jaws in hand") {
  const auto p = plan({part("frame"), part("frame", 2, 90), part("bores")}, {jaws()});
  const Moves moves = moves_of(p->spots, p->order);
  // Outside, inside | inside, outside | outside (pegs), inside (holes), shanks.
  CHECK(moves.jaw_changes == 1 + 1 + 2);
  CHECK(moves.part_changes == 3);
  CHECK(moves.in_a_row == 0);
  CHECK(moves_of(p->spots, round_and_round(*p)).jaw_changes > 4 * moves.jaw_changes);
}

TEST_CASE("what the next part begins with is taken up last") {
  // Bores with inside jaws in hand: holes, shanks, then pegs, since the stair is read with the outside jaws.
  const auto p = plan({part("frame"), part("bores"), part("stair")}, {});
  CHECK(moves_of(p->spots, p->order).jaw_changes == 3);
}

TEST_CASE("every reading of every design is there once, whatever is measured together") {
  using Names = std::vector<std::string>;
  const std::vector<Names> evenings{Names{"frame", "bores", "walls", "stair"}, Names{"stair"}, Names{"walls", "frame"}};
  for (const Names& designs : evenings)
    for (int repeats = 1; repeats <= 3; ++repeats) {
      std::vector<PartCopy> parts;
      std::size_t places = 0;
      for (const auto& design : designs)
        for (int copy = 1; copy <= 2; ++copy) {
          parts.push_back(part(design, copy, copy == 2 ? 90 : 0));
          places += parts.back().coupon->places.size();
        }
      MeasureOptions options;
      options.repeats = repeats;
      const auto p = plan(parts, {jaws(), steel("block 20", Kind::gauge, 20, 3)}, options);
      std::set<ReadingKey> keys;
      for (const Due& due : p->order) keys.insert(key_of(*p, due));
      CHECK(keys.size() == places * static_cast<std::size_t>(repeats) + 6);
      CHECK(p->order.size() == keys.size());
      if (repeats > 1) CHECK(moves_of(p->spots, p->order).in_a_row == 0);
    }
}

TEST_CASE("round ones are read along X first and along Y second, as the file defines it") {
  const auto p = plan({part("bores")}, {});
  for (const Due& due : p->order) {
    const MeasureSpot& s = p->spots[due.spot];
    if (s.feature.kind == Kind::peg || s.feature.kind == Kind::hole)
      CHECK(line_of(s, due.repeat) == (due.repeat == 1 ? JawLine::along_x : JawLine::along_y));
  }
}

TEST_CASE("a ring is read just before the inside jaws are used") {
  const auto p = plan({part("frame")}, {jaws(), steel("block 20", Kind::gauge, 20), steel("ring 10", Kind::ring, 10)});
  CHECK(moves_of(p->spots, p->order).jaw_changes == 1);
  const auto ids = ids_of(*p);
  const auto ring = std::find(ids.begin(), ids.end(), "ring 10/1");
  REQUIRE(ring != ids.end());
  CHECK((ring + 1)->front() == 'S');
  CHECK(ids[3] == "block 20/1");
}

TEST_CASE("a lying hole is read upright and across, with repeat numbers of its own") {
  PartCopy p;
  Feature hole;
  hole.id = "L8", hole.kind = Kind::hole_h, hole.axis = Axis::x, hole.nominal_mm = 8;
  p.features = {hole};
  const auto made = plan({p}, {});
  REQUIRE(made->order.size() == 4);
  std::set<int> up, across;
  for (const Due& due : made->order) (made->spots[due.spot].note == "up" ? up : across).insert(due.repeat);
  CHECK(up == std::set<int>{1, 3});
  CHECK(across == std::set<int>{2, 4});
}

TEST_CASE("what would mix up two readings is refused, all of it at once") {
  PartCopy odd = part("frame", 0, 45);
  const auto wrong = plan_measuring({part("frame"), part("frame"), odd}, {steel("X40", Kind::gauge, -1)});
  REQUIRE_FALSE(wrong);
  std::string all;
  for (const Problem& p : wrong.problems()) all += p.text() + "\n";
  INFO(all);
  CHECK(all.find("\"X10a\" of copy 1 is there twice") != std::string::npos);
  CHECK(all.find("two different features are called \"X40\"") != std::string::npos);
  CHECK(all.find("number copies 1, 2, 3") != std::string::npos);
  CHECK(all.find("0, 90, 180 or 270") != std::string::npos);
  CHECK(all.find("true size of \"X40\" is -1 mm") != std::string::npos);
  CHECK(plan_measuring({}, {}).problems().front().code == Code::unanswerable);
}
