// The estimates of what a place gives under the jaws, against values printed in handbooks and against each other.

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "design/compliance.hpp"

using namespace fitwright;

TEST_CASE("compliance: torsion constants of rectangles as tabulated") {
  // Timoshenko and Goodier, Theory of Elasticity, table of rectangular bars: J = k1 a b^3 (from memory).
  for (const auto& [ratio, k1] : {std::pair{1.0, 0.1406}, std::pair{1.2, 0.166}, std::pair{1.5, 0.196},
                                  std::pair{2.0, 0.229}, std::pair{3.0, 0.263}, std::pair{10.0, 0.312}}) {
    CHECK(torsion_constant_mm4(ratio, 1) == Approx(k1 * ratio).epsilon(0.01));
    CHECK(torsion_constant_mm4(1, ratio) == torsion_constant_mm4(ratio, 1));
  }
}

TEST_CASE("compliance: a ring under two opposite forces gives 0.149 F R^3/(E I)") {
  // Timoshenko, Strength of Materials, part II, circular ring: 0.149 (from memory).
  const double radius = 11.8, inertia = 4.8 * std::pow(3.6, 3) / 12;
  CHECK(ring_closing(20, 3.6, 4.8) == Approx(0.149 * std::pow(radius, 3) / (3000 * inertia)).epsilon(0.002));
}

TEST_CASE("compliance: sections glued together") {
  const Section whole = rectangle_section(0, 6, 0, 4);
  const Section halves = together(rectangle_section(0, 2, 0, 4), rectangle_section(2, 6, 0, 4));
  CHECK(halves.area_mm2 == Approx(whole.area_mm2));
  CHECK(halves.centre_across_mm == Approx(3));
  CHECK(halves.centre_up_mm == Approx(2));
  CHECK(halves.inertia_plan_mm4 == Approx(4 * 216 / 12.0));
  CHECK(halves.inertia_up_mm4 == Approx(6 * 64 / 12.0));
  // A force through the centroid only presses; at the edge of a rectangle it closes four times as much.
  CHECK(bar_closing(whole, 10, 3, 2) == Approx(10 / (3000.0 * 24)));
  CHECK(bar_closing(whole, 10, 6, 2) == Approx(4 * 10 / (3000.0 * 24)));
}

TEST_CASE("compliance: the framed panel against solid-brick finite elements") {
  // Run once outside this tree: bricks of 1 mm, jaws of 3 x 4 mm at mid-height, side 60 and 100 mm, bars 4 x 4.8 mm,
  // web 0.4 mm; and 0.36 mm at 100.
  CHECK(framed_panel_closing(96, 4, 4.8, 0.4, 2.7) == Approx(0.0063).epsilon(0.05));
  CHECK(framed_panel_closing(56, 4, 4.8, 0.4, 2.7) == Approx(0.0041).epsilon(0.05));
  CHECK(framed_panel_closing(96, 4, 4.8, 0.36, 2.7) == Approx(0.0058).epsilon(0.15));
}

TEST_CASE("compliance: cylinders between flat jaws give far less than the limit") {
  for (const double d : {3., 5., 8., 12., 20.}) CHECK(cylinder_closing(d, 6) < 0.1 * compliance_limit_mm_per_n);
  CHECK(cylinder_closing(20, 6) > cylinder_closing(3, 6));
}
