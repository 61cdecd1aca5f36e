// Stacks of random outlines: every mesh must be sound, whatever the outlines.

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <stdexcept>

#include "mesh/grid.hpp"
#include "mesh/mesh.hpp"
#include "mesh/outside_check.hpp"

using namespace fitwright;

namespace {

/// Whole numbers from the raw generator: the standard's distributions differ between libraries.
class Dice {
 public:
  explicit Dice(std::uint32_t seed) : raw_(seed) {}
  int below(int n) { return static_cast<int>(draw() % static_cast<std::uint32_t>(n)); }
  double between(double low, double high) { return low + (high - low) * draw() / 4294967296.0; }

 private:
  std::uint32_t draw() { return static_cast<std::uint32_t>(raw_()); }
  std::mt19937 raw_;
};

Region random_region(Dice& dice, double size_mm) {
  Region region;
  const int pieces = 1 + dice.below(5);
  for (int i = 0; i < pieces; ++i) {
    const double x = dice.between(0, size_mm), y = dice.between(0, size_mm);
    Region piece;
    switch (dice.below(3)) {
      case 0:
        piece = {rectangle(x, y, x + dice.between(0.3, 20), y + dice.between(0.3, 20))};
        break;
      case 1:
        piece = {polygon(x, y, dice.between(0.3, 25), 3 + dice.below(60))};
        break;
      default:
        piece = text("X8", x, y, dice.between(2, 12), dice.between(0, 360));
        break;
    }
    region = dice.below(3) == 0 ? subtract(region, piece) : unite(region, piece);
  }
  return region;
}

double perimeter_mm(const Region& region) {
  double total = 0;
  for (const Ring& ring : region)
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
      total += std::hypot(mm(b.x - a.x), mm(b.y - a.y));
    }
  return total;
}

/// How far the mesh's volume may stand from the outlines': every point moves by half a step at most when it is rounded
/// to the grid, and by half a step again where outlines cross.
double volume_bound_mm3(const Solid& solid) {
  const double plan_mm = std::sqrt(2.0) * plan_grid(solid).mm(1), height_mm = height_grid(solid).mm(1);
  double bound = 0;
  for (const Slab& slab : solid.slabs) {
    const double area = volume_mm3({"", {{0, nm(1), slab.region}}});
    bound += perimeter_mm(slab.region) * plan_mm * mm(slab.top - slab.bottom) + area * height_mm;
  }
  return bound;
}

/// Volume of the outlines and heights rounded to the grid, as the mesh takes them: exact sums of whole numbers.
double rounded_volume_mm3(const Solid& solid) {
  const Grid plan = plan_grid(solid), upward = height_grid(solid);
  double total = 0;
  for (const Slab& slab : solid.slabs) {
    std::int64_t twice_area = 0;
    for (const Ring& ring : slab.region)
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
        twice_area += plan.steps(a.x) * plan.steps(b.y) - plan.steps(b.x) * plan.steps(a.y);
      }
    total += static_cast<double>(twice_area) / 2 * plan.mm(1) * plan.mm(1) *
             upward.mm(upward.steps(slab.top) - upward.steps(slab.bottom));
  }
  return total;
}

}  // namespace

TEST_CASE("random stacks of crossing outlines", "[mesh]") {
  Dice dice(20261125);
  for (int run = 0; run < 150; ++run) {
    Solid solid{"random", {}};
    Nm z = 0;
    for (int slabs = 1 + dice.below(5); slabs > 0; --slabs) {
      const Nm top = z + nm(dice.between(0.1, 4));
      // Now and then an outline again, or grown a little, so that parts of it coincide or run close by.
      Region region = random_region(dice, 40);
      if (!solid.slabs.empty()) {
        const Region& below = solid.slabs.back().region;
        if (const int kind = dice.below(4); kind == 0)
          region = unite(below, region);
        else if (kind == 1)
          region = subtract(below, region);
        else if (kind == 2)
          region = grow(below, nm(dice.between(-0.2, 0.2)));
      }
      solid.slabs.push_back({z, top, region});
      z = top;
    }
    const double expected = volume_mm3(solid);
    INFO("run " << run);
    const Mesh mesh = mesh_of(solid);
    if (mesh.triangles.empty()) {
      CHECK(expected == 0);
      continue;
    }
    CHECK(is_closed_and_oriented(mesh));
    CHECK(degenerate_triangles(mesh) == 0);
    CHECK(std::abs(volume_mm3(mesh) - expected) <= volume_bound_mm3(solid));
    // What is left apart from the rounding of the outlines: pieces bent at crossings.
    CHECK(volume_mm3(mesh) == Approx(rounded_volume_mm3(solid)).epsilon(1e-6));
    if (run % 10 == 0) {
      const auto report = fitwright_test::cgal(mesh);
      INFO(report.output);
      CHECK(report.clean());
      const auto counts = fitwright_test::admesh(mesh);
      INFO(counts.output);
      CHECK(counts.clean());
    }
  }
}

namespace {

constexpr int across = 6, high = 3;
using Cells = std::array<std::array<std::array<bool, across + 2>, across + 2>, high + 2>;  // z, y, x; with a margin

/// Do two cells meet along an edge only, somewhere?
bool touches_along_edge(const Cells& full) {
  const auto diagonal = [](bool a, bool b, bool c, bool d) { return a == d && b == c && a != b; };
  for (std::size_t z = 0; z <= high; ++z)
    for (std::size_t y = 0; y <= across; ++y)
      for (std::size_t x = 0; x <= across; ++x) {
        if (diagonal(full[z][y][x], full[z][y][x + 1], full[z][y + 1][x], full[z][y + 1][x + 1])) return true;
        if (diagonal(full[z][y][x], full[z][y][x + 1], full[z + 1][y][x], full[z + 1][y][x + 1])) return true;
        if (diagonal(full[z][y][x], full[z][y + 1][x], full[z + 1][y][x], full[z + 1][y + 1][x])) return true;
      }
  return false;
}

}  // namespace

TEST_CASE("random stacks of unit cells: volume by counting, refusal exactly where cells touch along an edge",
          "[mesh]") {
  Dice dice(7);
  int meshed = 0, refused = 0;
  for (int run = 0; run < 400; ++run) {
    Cells full{};
    Solid solid{"cells", {}};
    int count = 0;
    for (int z = 0; z < high; ++z) {
      Region region;
      for (int block = 1 + dice.below(3); block > 0; --block) {
        const int x = dice.below(across - 1), y = dice.below(across - 1);
        const int x1 = x + 1 + dice.below(across - x), y1 = y + 1 + dice.below(across - y);
        const bool take = dice.below(4) == 0;
        const Region piece{rectangle(x, y, x1, y1)};
        region = take ? subtract(region, piece) : unite(region, piece);
        for (int cy = y; cy < y1; ++cy)
          for (int cx = x; cx < x1; ++cx)
            full[static_cast<std::size_t>(z) + 1][static_cast<std::size_t>(cy) + 1][static_cast<std::size_t>(cx) + 1] =
                !take;
      }
      solid.slabs.push_back({nm(z), nm(z + 1), region});
    }
    for (const auto& layer : full)
      for (const auto& row : layer) count += static_cast<int>(std::count(row.begin(), row.end(), true));
    INFO("run " << run);
    CHECK(volume_mm3(solid) == Approx(count).epsilon(1e-12));
    if (touches_along_edge(full)) {
      CHECK_THROWS_AS(mesh_of(solid), std::logic_error);
      ++refused;
      continue;
    }
    const Mesh mesh = mesh_of(solid);
    CHECK(volume_mm3(mesh) == count);
    CHECK(degenerate_triangles(mesh) == 0);
    CHECK((count == 0 || is_closed_and_oriented(mesh)));
    ++meshed;
  }
  CHECK(meshed > 100);
  CHECK(refused > 20);
}
