#pragma once
// Constrained Delaunay triangulation of points of the grid, by exact whole-number tests.

#include <array>
#include <cstdint>
#include <vector>

#include "mesh/grid.hpp"

namespace fitwright {

/// Triangles cover the points' bounding box and a margin: the points are followed by four corners of that box.
struct Triangulation {
  struct Triangle {
    std::array<std::uint32_t, 3> corner{};  ///< anticlockwise
    std::array<int, 3> beside{};            ///< the triangle across the edge opposite each corner, -1 for none
    std::array<int, 3> edge{};              ///< which of the given edges that is, -1 for none
  };
  std::vector<Triangle> triangles;
  std::uint32_t first_box_corner = 0;
};

/// Triangulates `points` (all different) so that each of `edges` (pairs of point indices) is an edge of triangles.
/// The edges must meet only at common end points, and no point may lie inside one. No triangle has zero area. Apart
/// from the edges given, Delaunay. Method: insertion with Lawson's flips; edges forced in by flips (S. W. Sloan, A fast
/// algorithm for generating constrained Delaunay triangulations, Computers & Structures 47 (1993) 441-450).
/// Throws std::logic_error when the conditions are broken.
Triangulation triangulate(const std::vector<GridPoint>& points, const std::vector<std::array<std::uint32_t, 2>>& edges);

}  // namespace fitwright
