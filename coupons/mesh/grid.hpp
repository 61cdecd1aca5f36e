#pragma once
// Whole-number coordinates that a 32-bit float holds exactly.
//
// A binary STL stores 32-bit floats. Rounding a finished mesh to them moves vertices by up to 4 nm at 100 mm, enough to
// flatten or turn over a thin triangle. So outlines are rounded once, before any triangle is made, to steps of a power
// of two of a millimetre, as fine as a float's 24 bits allow for the size of the solid (7.6 nm for 64 to 128 mm,
// never finer than about 1 nm). Everything after that is exact, and what is written is what was checked.

#include <compare>
#include <cstdint>
#include <stdexcept>

#include "solid/solid.hpp"

namespace fitwright {

/// A point of the plan in grid steps; at most 2^24 in size, so that products of two differences fit 64 bits.
struct GridPoint {
  std::int64_t x = 0, y = 0;
  friend auto operator<=>(const GridPoint&, const GridPoint&) = default;
};

/// Twice the signed area of abc, in steps squared: > 0 when c lies left of a to b. Exact.
inline std::int64_t turn(const GridPoint& a, const GridPoint& b, const GridPoint& c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

struct Grid {
  int bits = 0;  ///< a step is 2^-bits mm

  [[nodiscard]] std::int64_t steps(Nm length) const;  ///< rounded to the nearest
  [[nodiscard]] double mm(std::int64_t steps) const;  ///< exact
};

/// The finest grids for a solid's plan and for its heights; `coarser` makes the steps of the plan 2^coarser times as
/// long. They throw std::logic_error when the solid reaches farther than 16 m.
Grid plan_grid(const Solid& solid, int coarser = 0);
Grid height_grid(const Solid& solid);

/// A solid that can't be meshed on this grid, perhaps because of rounding: another one may do.
struct UnfitGrid : std::logic_error {
  using std::logic_error::logic_error;
};

}  // namespace fitwright
