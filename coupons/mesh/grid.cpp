#include "mesh/grid.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace fitwright {
namespace {

constexpr Nm nm_per_mm = 1'000'000;
constexpr int float_bits = 24;   // significand of an IEEE 754 binary32
constexpr int finest_bits = 20;  // 0.95 nm: outlines are known to 1 nm
constexpr int coarsest_bits = 10;

/// The finest grid on which `reach` still fits a float.
Grid finest(Nm reach) {
  for (int bits = finest_bits; bits >= coarsest_bits; --bits)
    if (reach <= (std::int64_t{1} << (float_bits - bits)) * nm_per_mm) return {bits};
  throw std::logic_error("mesh_of: the solid reaches farther than 16 m from its origin");
}

}  // namespace

std::int64_t Grid::steps(Nm length) const {
  const std::int64_t scaled = length * (std::int64_t{1} << bits);
  const std::int64_t half = scaled < 0 ? -nm_per_mm / 2 : nm_per_mm / 2;
  return (scaled + half) / nm_per_mm;
}

double Grid::mm(std::int64_t steps) const { return std::ldexp(static_cast<double>(steps), -bits); }

Grid plan_grid(const Solid& solid, int coarser) {
  Nm reach = 0;
  for (const Slab& slab : solid.slabs)
    for (const Ring& ring : slab.region)
      for (const Point& p : ring) reach = std::max({reach, std::abs(p.x), std::abs(p.y)});
  return {finest(reach).bits - coarser};
}

Grid height_grid(const Solid& solid) {
  Nm reach = 0;
  for (const Slab& slab : solid.slabs) reach = std::max({reach, std::abs(slab.bottom), std::abs(slab.top)});
  return finest(reach);
}

}  // namespace fitwright
