#include "reading/checks.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

using namespace fitwright;

namespace {

Reading reading(Kind kind, double nominal_mm, double reading_mm, int copy = 1, int repeat = 1,
                const std::string& id = "A") {
  Reading r;
  r.feature.id = id;
  r.feature.kind = kind;
  r.feature.nominal_mm = nominal_mm;
  r.copy = copy;
  r.repeat = repeat;
  r.reading_mm = reading_mm;
  return r;
}

ReadingSet place_with(Kind kind, double nominal_mm, const std::vector<double>& readings_mm) {
  ReadingSet set;
  for (std::size_t i = 0; i < readings_mm.size(); ++i)
    set.rows.push_back(reading(kind, nominal_mm, readings_mm[i], 1, static_cast<int>(i) + 1));
  return set;
}

struct Proposal {
  double nominal_mm, reading_mm;
  std::optional<double> expected_mm, proposal_mm;
  std::string slip;
};

}  // namespace

TEST_CASE("The gate is half a millimetre, or 1.5 % of a long length; for walls 40 % of the width") {
  CHECK(gate_half_width_mm(reading(Kind::outer, 10, 0).feature) == 0.5);
  CHECK(gate_half_width_mm(reading(Kind::outer, 100, 0).feature) == 1.5);
  CHECK(gate_half_width_mm(reading(Kind::hole, 5, 0).feature) == 0.5);
  CHECK(gate_half_width_mm(reading(Kind::zero, 0, 0).feature) == 0.5);
  CHECK(gate_half_width_mm(reading(Kind::wall, 0.3, 0).feature) == 0.15);
  CHECK(gate_half_width_mm(reading(Kind::wall, 0.9, 0).feature) == Approx(0.36));
}

TEST_CASE("A reading on the gate passes, one beyond it does not") {
  CHECK(passes_gate(reading(Kind::outer, 40, 40.6)));  // 40.6 - 40 exceeds 0.6 in the last binary digit only
  CHECK(passes_gate(reading(Kind::outer, 40, 39.4)));
  CHECK_FALSE(passes_gate(reading(Kind::outer, 40, 40.61)));
  CHECK_FALSE(passes_gate(reading(Kind::outer, 40, 39.39)));
  CHECK(passes_gate(reading(Kind::hole, 5, 4.5)));
  CHECK_FALSE(passes_gate(reading(Kind::zero, 0, 0.51)));
}

TEST_CASE("A slip is proposed when exactly one explains the reading") {
  const std::string point = "decimal point shifted", inches = "read in inches", whole = "one millimetre off",
                    digits = "two digits swapped";
  const Proposal cases[] = {
      {40, 400.5, 40.07, 40.05, point},
      {40, 4.01, std::nullopt, 40.1, point},
      {40, 1.58, 40.1, 40.13, inches},
      {20, 21.05, 20.1, 20.05, whole},
      {20, 19.05, 20.1, 20.05, whole},
      {40, 4.5, 40.1, std::nullopt, ""},  // ten times is 45: nothing explains it
      {12, 21.05, 12.08, 12.05, digits},
      {10, 100.1, std::nullopt, std::nullopt, ""},  // 10.01 and 010.10 both do
      {40, 44, 40.1, std::nullopt, ""},
      {40, 39.2, 40.1, std::nullopt, ""},         // plus one is 40.20, within 0.15; swapped 93.20 and 39.02 are not
      {0, 1.01, std::nullopt, std::nullopt, ""},  // 0.01 and 0.10 both are near zero
      {0.45, -0.54, std::nullopt, 0.46, whole},
  };
  for (const Proposal& c : cases) {
    INFO(c.nominal_mm << " read " << c.reading_mm);
    const auto suspect = check_entry(reading(c.nominal_mm == 0      ? Kind::zero
                                             : c.nominal_mm == 0.45 ? Kind::wall
                                                                    : Kind::outer,
                                             c.nominal_mm, c.reading_mm),
                                     c.expected_mm);
    REQUIRE(suspect.has_value());
    CHECK(suspect->rule == Rule::entry);
    if (c.reading_mm == 39.2) {
      CHECK(suspect->proposal_mm == 40.2);
      continue;
    }
    CHECK(suspect->proposal_mm == c.proposal_mm);
    CHECK(suspect->slip == c.slip);
  }
}

TEST_CASE("What passes the gate is no entry suspect, whatever is expected") {
  CHECK_FALSE(check_entry(reading(Kind::outer, 40, 40.4), 40.0).has_value());
}

TEST_CASE("A reading outside the gate is compared with the others of its place") {
  // The hole closes by 0.4, so the nominal would not explain 45.8 (proposal limit 0.15 + 0.006 L = 0.18).
  const ReadingSet set = place_with(Kind::hole, 5, {4.6, 45.8, 4.61});
  const auto suspects = check_readings(set);
  REQUIRE(suspects.size() == 1);
  CHECK(suspects[0].index == 1);
  CHECK(suspects[0].rule == Rule::entry);
  CHECK(suspects[0].proposal_mm == 4.58);
  CHECK_FALSE(check_entry(set.rows[1], std::nullopt)->proposal_mm.has_value());
}

TEST_CASE("Three readings show which one is off, two do not") {
  const auto suspects = check_readings(place_with(Kind::outer, 40, {40.05, 40.14, 40.06}));
  CHECK(suspects.empty());  // 0.08 from the median: on the limit
  const auto off = check_readings(place_with(Kind::outer, 40, {40.05, 40.15, 40.06}));
  REQUIRE(off.size() == 1);
  CHECK(off[0].index == 1);
  CHECK(off[0].rule == Rule::repeat);
  CHECK_FALSE(off[0].proposal_mm.has_value());
  CHECK(check_readings(place_with(Kind::outer, 40, {40.05, 40.15})).empty());
  CHECK(check_readings(place_with(Kind::outer, 40, {40.05, 40.15, 400.6})).size() == 1);  // only the gate speaks
}

TEST_CASE("Swapped decimals within the gate are found by the repeats and proposed") {
  const auto suspects = check_readings(place_with(Kind::outer, 40, {40.14, 40.13, 40.41}));
  REQUIRE(suspects.size() == 1);
  CHECK(suspects[0].index == 2);
  CHECK(suspects[0].proposal_mm == 40.14);
  CHECK(suspects[0].slip == "two digits swapped");
}

TEST_CASE("Steel is one place whatever its copy; printed copies are not") {
  ReadingSet set;
  for (int copy = 1; copy <= 3; ++copy) set.rows.push_back(reading(Kind::gauge, 10, copy == 2 ? 10.12 : 10.01, copy));
  const auto steel = check_readings(set);
  REQUIRE(steel.size() == 1);
  CHECK(steel[0].index == 1);
  for (Reading& r : set.rows) r.feature.kind = Kind::outer;
  CHECK(check_readings(set).empty());
}

TEST_CASE("Height and width of a lying hole are two places") {
  ReadingSet set = place_with(Kind::hole_h, 5, {4.6, 4.62, 4.61, 4.8, 4.82, 4.81});
  CHECK(check_readings(set).size() == 6);  // three against three: the median lies between, all are off
  for (std::size_t i = 0; i < 6; ++i) set.rows[i].note = i < 3 ? "up" : "across";
  CHECK(check_readings(set).empty());
}

TEST_CASE("Pins go by whole shanks, so one step is no slip") {
  CHECK(check_readings(place_with(Kind::pin, 3, {2.9, 2.8, 2.9})).empty());
  CHECK(check_readings(place_with(Kind::pin, 3, {2.9, 2.7, 2.9})).size() == 1);
  CHECK(places_wanting_a_third(place_with(Kind::pin, 3, {2.9, 2.8})).empty());
}

TEST_CASE("Two readings that differ by more than 0.05 want a third") {
  CHECK(places_wanting_a_third(place_with(Kind::outer, 40, {40.05, 40.10})).empty());
  const auto places = places_wanting_a_third(place_with(Kind::outer, 40, {40.05, 40.11}));
  REQUIRE(places.size() == 1);
  CHECK(places[0] == std::pair<std::string, int>("A", 1));
  CHECK(places_wanting_a_third(place_with(Kind::outer, 40, {40.05, 40.11, 40.06})).empty());
  CHECK(places_wanting_a_third(place_with(Kind::outer, 40, {40.05, 40.11, 4.06})).size() == 1);
}

TEST_CASE("Suspects come in the order of the rows, and nothing is changed") {
  ReadingSet set = place_with(Kind::outer, 40, {40.05, 40.3, 40.06, 400.6});
  const auto suspects = check_readings(set);
  REQUIRE(suspects.size() == 2);
  CHECK(suspects[0].index == 1);
  CHECK(suspects[1].index == 3);
  CHECK(set.rows[3].reading_mm == 400.6);
  CHECK(word(Rule::entry) == "entry");
  CHECK(word(Rule::repeat) == "repeat");
  CHECK(word(Rule::residual) == "residual");
}

TEST_CASE("What no caliper shows is told apart from what the gate asks about") {
  const Feature outer = reading(Kind::outer, 40, 0).feature, thin = reading(Kind::wall, 0.45, 0).feature;
  CHECK(can_be_read(outer, 40.1));
  CHECK(can_be_read(outer, 400));  // a slip, which the gate asks about
  CHECK(can_be_read(outer, absurd_size_mm));
  for (const double mm : {0.0, -0.1, -40.1, 10000.01, std::nan(""), HUGE_VAL}) CHECK_FALSE(can_be_read(outer, mm));
  CHECK(can_be_read(thin, -0.55));  // 0.45 typed one millimetre off
  CHECK_FALSE(can_be_read(thin, -0.30));
  CHECK(can_be_read(reading(Kind::zero, 0, 0).feature, -0.02));
}

TEST_CASE("Two readings need a third when they differ by more than 0.05 mm, shanks by more than their step") {
  const auto need = [](Kind kind, double a, double b) {
    return need_a_third(reading(kind, 10, a), reading(kind, 10, b));
  };
  CHECK_FALSE(need(Kind::outer, 10.05, 10.10));
  CHECK(need(Kind::outer, 10.05, 10.11));
  CHECK(need(Kind::outer, 10.11, 10.05));
  CHECK_FALSE(need(Kind::pin, 9.9, 10.0));
  CHECK(need(Kind::pin, 9.8, 10.0));
}

TEST_CASE("A suspect says what it was held against") {
  CHECK(check_entry(reading(Kind::outer, 40, 41.12), std::nullopt)->against_mm == 40);
  const auto suspects = check_readings(place_with(Kind::outer, 40, {40.10, 40.12, 40.30}));
  REQUIRE(suspects.size() == 1);
  CHECK(suspects[0].against_mm == 40.12);
}

TEST_CASE("Pegs that are all off alike are no slips, and a slip among them is one") {
  // Pegs 0.6 to 0.7 mm large: edge growth and a law of their own, beyond the gate of 0.5 mm.
  ReadingSet set;
  const auto add = [&](const std::string& id, double nominal_mm, std::initializer_list<double> readings) {
    int repeat = 0;
    for (const double r : readings) {
      set.rows.push_back(reading(Kind::peg, nominal_mm, r, 1, ++repeat));
      set.rows.back().feature.id = id;
    }
  };
  add("P5", 5, {5.66, 5.67, 5.64});
  add("P8", 8, {8.61, 8.62, 8.60});
  CHECK(check_readings(set).size() == 6);  // two places are no law
  add("P12", 12, {12.70, 12.68, 12.71});
  CHECK(check_readings(set).empty());

  set.rows[1].reading_mm = 4.67;  // one millimetre less: passes the gate by luck, but not its own place
  auto suspects = check_readings(set);
  REQUIRE(suspects.size() == 1);
  CHECK(suspects[0].index == 1);
  CHECK(suspects[0].rule == Rule::repeat);
  CHECK(suspects[0].proposal_mm.value() == Approx(5.67));
  set.rows[1].reading_mm = 56.7;
  suspects = check_readings(set);
  REQUIRE(suspects.size() == 1);
  CHECK(suspects[0].rule == Rule::entry);
  CHECK(suspects[0].proposal_mm.value() == Approx(5.67));
}

TEST_CASE("Cylinders that are off alike by a slip in all of them stay suspects") {
  ReadingSet off, inches;
  for (const double nominal_mm : {5., 8., 12., 20.})
    for (int repeat = 1; repeat <= 2; ++repeat) {
      off.rows.push_back(reading(Kind::hole, nominal_mm, nominal_mm + 0.93, 1, repeat));  // a millimetre more
      inches.rows.push_back(reading(Kind::hole, nominal_mm, nominal_mm / 25.4, 1, repeat));
      for (ReadingSet* set : {&off, &inches})
        set->rows.back().feature.id = "H" + std::to_string(static_cast<int>(nominal_mm));
    }
  CHECK(check_readings(off).size() == off.rows.size());
  CHECK(check_readings(inches).size() == inches.rows.size());
}

TEST_CASE("Flat faces that are all off alike stay suspects") {
  ReadingSet set;
  for (const double nominal_mm : {10., 20., 40., 60.}) {
    set.rows.push_back(reading(Kind::outer, nominal_mm, nominal_mm + 0.7 + 0.015 * nominal_mm));
    set.rows.back().feature.id = "X" + std::to_string(static_cast<int>(nominal_mm));
  }
  CHECK(check_readings(set).size() == 4);
}

TEST_CASE("slips of a caliper in inches are slips of its own digits") {
  constexpr double mm = 25.4;
  Reading r;
  r.feature.id = "X40";
  r.feature.kind = Kind::outer;
  r.feature.axis = Axis::x;
  r.feature.nominal_mm = 40;
  const auto proposal_in = [&](double typed_mm, Digits usual = Digits::inches) -> double {
    r.reading_mm = typed_mm;
    const auto suspect = check_entry(r, 1.5795 * mm, usual);
    REQUIRE(suspect);
    REQUIRE(suspect->proposal_mm);
    return *suspect->proposal_mm / mm;
  };
  const double meant = 1.5795;
  CHECK(proposal_in(15.795 * mm) == Approx(meant).epsilon(1e-12));     // the point
  CHECK(proposal_in(1.6795 * mm) == Approx(meant).epsilon(1e-12));     // a turn of the dial
  CHECK(proposal_in(1.7595 * mm) == Approx(meant).epsilon(1e-12));     // 5 and 7 swapped
  CHECK(proposal_in(40.12 * mm) * mm == Approx(40.12).epsilon(1e-9));  // it showed millimetres
  // Told from the value alone where it can be: 1.7595 in is no whole hundredth of a millimetre.
  CHECK(proposal_in(1.7595 * mm, Digits::mm) == Approx(meant).epsilon(1e-12));
  CHECK(digits_of(40.12) == Digits::mm);
  CHECK(digits_of(1.5795 * mm) == Digits::inches);
  CHECK(digits_of(0.05 * mm, Digits::inches) == Digits::inches);
  CHECK(digits_of(0.05 * mm) == Digits::mm);
}
