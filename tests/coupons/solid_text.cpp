#include <algorithm>
#include <catch2/catch.hpp>
#include <stdexcept>

#include "solid/solid.hpp"

using namespace fitwright;

namespace {

struct Extent {
  double x0 = 1e9, y0 = 1e9, x1 = -1e9, y1 = -1e9;
};

Extent extent(const Region& region) {
  Extent e;
  for (const Ring& ring : region)
    for (const Point& p : ring) {
      e.x0 = std::min(e.x0, mm(p.x)), e.x1 = std::max(e.x1, mm(p.x));
      e.y0 = std::min(e.y0, mm(p.y)), e.y1 = std::max(e.y1, mm(p.y));
    }
  return e;
}

double area_mm2(const Region& region) { return volume_mm3({"", {{0, nm(1), region}}}); }

}  // namespace

TEST_CASE("letters have the capital height asked for, on the baseline", "[solid][text]") {
  REQUIRE(text_ready().ok());
  const Extent e = extent(text("H", 10, 20, 3));
  CHECK(e.y0 == Approx(20).margin(1e-5));
  CHECK(e.y1 == Approx(23).margin(1e-5));
  CHECK(e.x0 > 10);
  CHECK(e.x1 < 10 + text_width_mm("H", 3));
}

TEST_CASE("letters are separate outlines with their counters as holes", "[solid][text]") {
  const auto holes = [](const Region& region) {
    return std::count_if(region.begin(), region.end(), [](const Ring& ring) { return area_mm2({ring}) < 0; });
  };
  CHECK(text("H", 0, 0, 3).size() == 1);
  CHECK(text("I1", 0, 0, 3).size() == 2);
  const Region eight = text("8", 0, 0, 3);
  CHECK(eight.size() == 3);
  CHECK(holes(eight) == 2);
  const Region label = text("X40a", 0, 0, 3);
  CHECK(label.size() == 7);  // four letters; counters in 4, 0, a
  CHECK(holes(label) == 3);
  CHECK(text(std::string(100, 'I'), 0, 0, 3).size() == 100);
  CHECK(text("", 0, 0, 3).empty());
  CHECK(text(" ", 0, 0, 3).empty());
}

TEST_CASE("letters are neither mirrored nor upside down", "[solid][text]") {
  const auto within = [](const Region& region, double x0, double y0, double x1, double y1) {
    return area_mm2(intersect(region, {rectangle(x0, y0, x1, y1)}));
  };
  const Region foot = text("L", 0, 0, 4);
  const Extent e = extent(foot);
  const double middle = (e.x0 + e.x1) / 2;
  CHECK(within(foot, middle, 0, e.x1, 1) > 0);
  CHECK(within(foot, middle, 1, e.x1, 4) == 0);
  CHECK(within(foot, 0, 1, middle, 4) > 0);
}

TEST_CASE("text scales, moves and turns as told", "[solid][text]") {
  const Region plain = text("X40a", 0, 0, 3);
  CHECK(area_mm2(text("X40a", 0, 0, 6)) == Approx(4 * area_mm2(plain)).epsilon(0.01));  // flattened finer
  CHECK(text_width_mm("X40a", 6) == Approx(2 * text_width_mm("X40a", 3)).epsilon(1e-12));
  const Extent flat = extent(plain), upright = extent(text("X40a", 50, 10, 3, 90));
  CHECK(upright.x0 == Approx(50 - flat.y1).margin(2e-6));
  CHECK(upright.x1 == Approx(50 - flat.y0).margin(2e-6));
  CHECK(upright.y0 == Approx(10 + flat.x0).margin(2e-6));
  CHECK(upright.y1 == Approx(10 + flat.x1).margin(2e-6));
  CHECK(area_mm2(text("X40a", 0, 0, 3, -30)) == Approx(area_mm2(plain)).epsilon(1e-5));
  CHECK(text("X40a", 0, 0, 3, 360) == plain);
  CHECK(text("X40a", 0, 0, 3, -90) == text("X40a", 0, 0, 3, 270));
  CHECK_THROWS_AS(text("X", 0, 0, 0), std::logic_error);
}
