#pragma once
// Measuring a mesh as a caliper would: between faces along a line, and round holes and pegs by their vertices.

#include <array>
#include <optional>
#include <vector>

#include "mesh/mesh.hpp"

namespace fitwright {

/// Where the straight line through `point` along `direction` (any length but 0) meets the surface: signed distances
/// from the point in mm, ascending. A line through an edge or a corner meets the surface there once. Faces that the
/// line lies in do not count.
std::vector<double> crossings_mm(const Mesh& mesh, const std::array<double, 3>& point,
                                 const std::array<double, 3>& direction);

/// Distance in mm between the two faces nearest to `point` on either side of it along `direction`: the thickness where
/// the point is in material, the width of the gap where it is not. Empty when there is no face on one of the sides.
std::optional<double> width_mm(const Mesh& mesh, const std::array<double, 3>& point,
                               const std::array<double, 3>& direction);

/// A standing hole or peg.
struct RoundMeasure {
  double diameter_mm = 0;  ///< of the circle through the vertices: twice their mean distance from the axis
  double spread_mm = 0;    ///< largest minus smallest distance of a vertex from the axis
  int facets = 0;          ///< number of vertices round
};

/// The standing hole or peg with its axis at (x, y), at height z: the upright edges of the mesh that pass that height
/// and stand closest to the axis, up to `slack_mm` farther out than the closest. Empty when no upright edge passes
/// within `reach_mm`.
std::optional<RoundMeasure> round_mm(const Mesh& mesh, double x, double y, double z, double reach_mm,
                                     double slack_mm = 1e-3);

}  // namespace fitwright
