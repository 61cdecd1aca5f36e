#pragma once
// The plan of a solid: the edges of all slabs, cut so that they meet only at common end points.

#include <cstdint>
#include <vector>

#include "mesh/grid.hpp"

namespace fitwright {

/// A piece of a slab's outline, directed so that material lies on its left.
struct OutlineEdge {
  GridPoint from, to;
  int slab = 0;
};

/// A piece of the plan between points a < b. Left of a to b, the winding number of the slab's outlines is `turns`
/// higher than on the right.
struct PlanEdge {
  std::uint32_t a = 0, b = 0;
  int turns = 0;
};

struct Plan {
  std::vector<GridPoint> points;             ///< ascending, all different
  std::vector<std::vector<PlanEdge>> slabs;  ///< per slab, ascending by (a, b)
};

/// Cuts edges wherever they cross, touch or overlap, in any slab, so that faces and walls of neighbours share the same
/// vertices. A crossing is rounded to the grid, or taken to an end point one step away; what the bent pieces cross is
/// cut again. Throws UnfitGrid should this not come to rest.
Plan plan_of(const std::vector<OutlineEdge>& edges, int slab_count);

}  // namespace fitwright
