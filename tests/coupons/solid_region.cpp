#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

#include "solid/solid.hpp"

using namespace fitwright;

namespace {

/// Area in mm2, holes counted off.
double area_mm2(const Region& region) { return volume_mm3({"", {{0, nm(1), region}}}); }

bool anticlockwise(const Ring& ring) { return area_mm2({ring}) > 0; }

}  // namespace

TEST_CASE("lengths are rounded to the nearest nanometre", "[solid]") {
  CHECK(nm(0.1) == 100000);
  CHECK(nm(-25.4) == -25400000);
  CHECK(nm(0.0000004) == 0);
  CHECK(nm(0.0000006) == 1);
  CHECK(mm(nm(123.456789)) == Approx(123.456789).epsilon(1e-15));
  CHECK_THROWS_AS(nm(std::numeric_limits<double>::quiet_NaN()), std::logic_error);
  CHECK_THROWS_AS(nm(1e300), std::logic_error);
}

TEST_CASE("a rectangle with a hole: orientation, area, volume", "[solid]") {
  const Region plate = subtract({rectangle(0, 0, 20, 10)}, {rectangle(2, 2, 5, 8)});
  REQUIRE(plate.size() == 2);
  CHECK(anticlockwise(plate[0]));
  CHECK_FALSE(anticlockwise(plate[1]));
  CHECK(area_mm2(plate) == 200 - 18);
  CHECK(volume_mm3({"", {{0, nm(2), plate}, {nm(2), nm(3), {rectangle(0, 0, 1, 1)}}}}) ==
        Approx(2 * 182 + 1).epsilon(1e-15));
}

TEST_CASE("results are the same value whatever the order of what goes in", "[solid]") {
  const Ring a = rectangle(0, 0, 10, 10), b = rectangle(5, 5, 15, 15), c = polygon(30, 5, 8, 64);
  CHECK(unite({a, b}, {c}) == unite({c}, {b, a}));
  CHECK(unite({a}, {b}) == unite({b}, {a}));
  CHECK(area_mm2(unite({a}, {b})) == 175);
  CHECK(area_mm2(intersect({a}, {b})) == 25);
  CHECK(subtract({a}, {a}).empty());
  CHECK(unite({}, {}).empty());
}

TEST_CASE("collinear points and zero-length edges go", "[solid]") {
  const Ring dotted{{0, 0}, {nm(5), 0}, {nm(10), 0}, {nm(10), 0}, {nm(10), nm(10)}, {nm(5), nm(10)}, {0, nm(10)}};
  CHECK(unite({dotted}, {}) == Region{rectangle(0, 0, 10, 10)});
  // Two rectangles that share an edge become one.
  CHECK(unite({rectangle(0, 0, 4, 10)}, {rectangle(4, 0, 10, 10)}) == Region{rectangle(0, 0, 10, 10)});
}

TEST_CASE("growing keeps right angles sharp and moves every edge by the same", "[solid]") {
  CHECK(grow({rectangle(0, 0, 10, 10)}, nm(0.25)) == Region{rectangle(-0.25, -0.25, 10.25, 10.25)});
  CHECK(grow({rectangle(0, 0, 10, 10)}, nm(-0.25)) == Region{rectangle(0.25, 0.25, 9.75, 9.75)});
  CHECK(grow({rectangle(0, 0, 10, 10)}, nm(-6)).empty());
  const Region framed = subtract({rectangle(0, 0, 20, 20)}, {rectangle(5, 5, 15, 15)});
  CHECK(grow(framed, nm(1)) == subtract({rectangle(-1, -1, 21, 21)}, {rectangle(6, 6, 14, 14)}));
  CHECK(grow({rectangle(0, 0, 10, 10)}, 0) == Region{rectangle(0, 0, 10, 10)});
}

TEST_CASE("a polygon stands on its circle, first vertex at angle 0", "[solid]") {
  for (const int facets : {3, 6, 64, 256}) {
    const Ring ring = polygon(7, -3, 20, facets);
    REQUIRE(ring.size() == static_cast<std::size_t>(facets));
    CHECK(ring.front() == Point{nm(17), nm(-3)});
    CHECK(anticlockwise(ring));
    for (const Point& p : ring)
      CHECK(std::hypot(mm(p.x) - 7, mm(p.y) + 3) == Approx(10).margin(1e-6));  // vertices are whole nm
    // Area of the inscribed regular polygon: n r2 sin(2 pi / n) / 2.
    const double expected = facets * 100 * std::sin(2 * std::numbers::pi / facets) / 2;
    CHECK(area_mm2({ring}) == Approx(expected).epsilon(1e-7));
  }
  CHECK_THROWS_AS(polygon(0, 0, 5, 2), std::logic_error);
  CHECK_THROWS_AS(polygon(0, 0, 0, 8), std::logic_error);
  CHECK_THROWS_AS(rectangle(1, 0, 1, 5), std::logic_error);
}
