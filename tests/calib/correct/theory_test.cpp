// Steps per mm from how an axis is built, against published tables of steps (common practice, recomputed).
#include "correct/theory.hpp"

#include <catch2/catch.hpp>

using namespace fitwright;

namespace {

Drive belt(double full_steps, double microsteps, double pitch_mm, double teeth) {
  Drive d;
  d.full_steps_per_turn = full_steps;
  d.microsteps = microsteps;
  d.belt_pitch_mm = pitch_mm;
  d.pulley_teeth = teeth;
  return d;
}

Drive screw(double full_steps, double microsteps, double lead_mm) {
  Drive d;
  d.full_steps_per_turn = full_steps;
  d.microsteps = microsteps;
  d.screw_lead_mm = lead_mm;
  return d;
}

double steps(const Drive& drive) {
  const auto s = theory_steps_per_mm(drive);
  REQUIRE(s.ok());
  return *s;
}

}  // namespace

TEST_CASE("steps of belts and screws") {
  CHECK(steps(belt(200, 16, 2, 20)) == Approx(80));
  CHECK(steps(belt(200, 16, 2, 16)) == Approx(100));
  CHECK(steps(belt(200, 32, 2, 20)) == Approx(160));
  CHECK(steps(belt(400, 16, 2, 20)) == Approx(160));
  CHECK(steps(belt(200, 8, 2, 20)) == Approx(40));
  CHECK(steps(belt(400, 32, 2, 16)) == Approx(400));
  CHECK(steps(screw(200, 16, 8)) == Approx(400));
  CHECK(steps(screw(200, 16, 2)) == Approx(1600));
  CHECK(steps(screw(200, 16, 4)) == Approx(800));
  CHECK(steps(screw(200, 8, 2)) == Approx(800));
  CHECK(steps(screw(200, 16, 1.25)) == Approx(2560));
  CHECK(steps(screw(200, 16, 1)) == Approx(3200));
  CHECK(steps(screw(400, 16, 12)) == Approx(533.3333));
  CHECK(steps(screw(200, 1, 2)) == Approx(100));
  Drive geared = screw(200, 16, 8);  // 32 teeth on the motor drive 20 on the screw
  geared.reduction = 20.0 / 32;
  CHECK(steps(geared) == Approx(250));
}

TEST_CASE("a drive that is no drive is refused") {
  CHECK_FALSE(theory_steps_per_mm({}).ok());
  Drive both = belt(200, 16, 2, 20);
  both.screw_lead_mm = 8;
  CHECK_FALSE(theory_steps_per_mm(both).ok());
  Drive half;
  half.belt_pitch_mm = 2;
  CHECK_FALSE(theory_steps_per_mm(half).ok());
  CHECK_FALSE(theory_steps_per_mm(belt(200, 16, 2, 0)).ok());
  CHECK_FALSE(theory_steps_per_mm(belt(-200, -16, 2, 20)).ok());
}
