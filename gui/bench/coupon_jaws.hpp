#pragma once
// What stands at a place when it is read: two jaws of a caliper, or a graded shank. Simple solids in the part's frame.

#include <vector>

#include "bench/coupon_scene.hpp"

namespace fitwright {

/// Flat triangles and the edges to be drawn.
struct JawSolid {
  struct Triangle {
    std::array<Vec3, 3> at;
    Vec3 normal;
  };
  std::vector<Triangle> triangles;
  std::vector<Line3> edges;
};

/// Both jaws, or the shank, on the feature. `second` puts them on a round feature at right angles to its first reading;
/// other features have one way only.
JawSolid jaws_at(const SceneFeature& feature, bool second = false);

}  // namespace fitwright
