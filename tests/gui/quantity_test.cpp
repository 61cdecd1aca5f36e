// Numbers typed with their unit.

#include "bench/quantity.hpp"

#include <catch2/catch.hpp>

using namespace fitwright;

TEST_CASE("a number is taken with its unit, without it, and with a decimal comma") {
  for (const char* typed : {"80", "80 steps/mm", "80steps per mm", " 80 /mm "})
    CHECK(from_field(typed, Unit::steps_per_mm).value() == 80);
  CHECK(from_field("0,4 mm", Unit::mm).value() == 0.4);
  CHECK(from_field("1.24 g/cm\u00b3", Unit::g_per_cm3).value() == 1.24);
  CHECK(from_field("205 \u00b0C", Unit::celsius).value() == 205);
  CHECK(from_field("24 per kg", Unit::per_kg).value() == 24);
}

TEST_CASE("inches are lengths of 25.4 mm, said or understood") {
  // 1 in = 25.4 mm exactly (international yard and pound agreement, 1959)
  CHECK(from_field("2 in", Unit::mm).value() == Approx(50.8));
  CHECK(from_field("2", Unit::mm, true).value() == Approx(50.8));
  CHECK(from_field("2 mm", Unit::mm, true).value() == 2);
  CHECK_FALSE(from_field("2 in", Unit::celsius).ok());
}

TEST_CASE("what is no number, or has another unit, is refused in words") {
  for (const char* typed : {"", "mm", "eighty", "1.2.3", "80 kg", "1,000.5"}) {
    INFO(typed);
    const auto taken = from_field(typed, Unit::steps_per_mm);
    REQUIRE_FALSE(taken.ok());
    CHECK_FALSE(taken.problems().front().remedy.empty());
  }
}

TEST_CASE("what stands in a field is taken back to the same number") {
  for (const Unit unit : {Unit::none, Unit::mm, Unit::steps_per_mm, Unit::celsius, Unit::g_per_cm3, Unit::per_kg})
    for (const double value : {0.45, 80.0, 1.0 / 3, 415.25})
      CHECK(from_field(in_field(value, unit), unit).value() == value);
}
