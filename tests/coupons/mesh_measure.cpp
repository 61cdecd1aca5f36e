#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "mesh/measure.hpp"

using namespace fitwright;

namespace {

/// Rounding to the grid moves a face by up to half a step, 3.8 nm here.
constexpr double grid_mm = 1e-5;

/// A plate 100 x 30 x 5 with a slot of 20 from x = 40, a hole of 8 at (15, 15), and a peg of 5, 10 high, at (80, 15).
Mesh plate() {
  const Region outline = subtract({rectangle(0, 0, 100, 30)}, {rectangle(40, 5, 60, 25), polygon(15, 15, 8, 64)});
  return mesh_of({"plate", {{0, nm(5), outline}, {nm(5), nm(15), {polygon(80, 15, 5, 48)}}}});
}

}  // namespace

TEST_CASE("widths of material and of gaps along a line", "[mesh][measure]") {
  const Mesh mesh = plate();
  CHECK(crossings_mm(mesh, {-10, 1, 2.5}, {1, 0, 0}).size() == 2);
  const auto through = crossings_mm(mesh, {-10, 10, 2.5}, {2, 0, 0});
  REQUIRE(through.size() == 4);  // above the hole: its rim is at 11
  CHECK(through[0] == Approx(10).margin(grid_mm));
  CHECK(through[1] == Approx(50).margin(grid_mm));
  CHECK(through[2] == Approx(70).margin(grid_mm));
  CHECK(through[3] == Approx(110).margin(grid_mm));
  CHECK(crossings_mm(mesh, {-10, 10, 2.5}, {-1, 0, 0}).front() == -through.back());
  CHECK(width_mm(mesh, {50, 15, 2.5}, {1, 0, 0}).value() == Approx(20).margin(grid_mm));
  CHECK(width_mm(mesh, {50, 15, 2.5}, {0, 1, 0}).value() == Approx(20).margin(grid_mm));
  CHECK(width_mm(mesh, {50, 2.5, 2.5}, {0, 0, 1}).value() == Approx(5).margin(grid_mm));
  CHECK(width_mm(mesh, {50, 2.5, 2.5}, {1, 0, 0}).value() == Approx(100).margin(grid_mm));
  // 45 degrees through the slot.
  CHECK(width_mm(mesh, {50, 15, 2.5}, {1, 1, 0}).value() == Approx(20 * std::sqrt(2.0)).margin(grid_mm));
  CHECK_FALSE(width_mm(mesh, {-5, 15, 2.5}, {1, 0, 0}).has_value());
  CHECK(crossings_mm(mesh, {50, 40, 2.5}, {1, 0, 0}).empty());
  CHECK_THROWS_AS(crossings_mm(mesh, {0, 0, 0}, {0, 0, 0}), std::logic_error);
}

TEST_CASE("standing holes and pegs by their vertices", "[mesh][measure]") {
  const Mesh mesh = plate();
  const auto hole = round_mm(mesh, 15, 15, 2.5, 10);
  REQUIRE(hole);
  CHECK(hole->diameter_mm == Approx(8).margin(grid_mm));
  CHECK(hole->spread_mm < grid_mm);
  CHECK(hole->facets == 64);
  const auto peg = round_mm(mesh, 80, 15, 10, 5);
  REQUIRE(peg);
  CHECK(peg->diameter_mm == Approx(5).margin(grid_mm));
  CHECK(peg->facets == 48);
  // Across the flats of an even polygon, by the line: d cos(pi / n).
  const double half_turn = std::numbers::pi / 64;
  CHECK(width_mm(mesh, {15, 15, 2.5}, {std::cos(half_turn), std::sin(half_turn), 0}).value() ==
        Approx(8 * std::cos(half_turn)).margin(grid_mm));
  CHECK_FALSE(round_mm(mesh, 80, 15, 20, 5).has_value());
  CHECK_FALSE(round_mm(mesh, 30, 15, 2.5, 5).has_value());
  // Off its axis by 0.01 mm, the spread shows it.
  const auto shifted = round_mm(mesh, 15.01, 15, 2.5, 10, 0.1);
  REQUIRE(shifted);
  CHECK(shifted->spread_mm == Approx(0.02).margin(grid_mm));
}
