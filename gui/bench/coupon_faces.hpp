#pragma once
// From a coupon's mesh to faces: what a scene is built from. Used by coupon_scene.cpp alone, and by tests.

#include <array>
#include <vector>

#include "bench/coupon_scene.hpp"

namespace fitwright {

/// For each triangle the triangles across its edges (from corner k to the next); -1 where there is none.
using Neighbours = std::vector<std::array<int, 3>>;

/// Finds the features' places, the triangles and outlines of their faces, and names each triangle's shortest feature.
void add_features(CouponScene& scene, const Coupon& coupon, const Neighbours& neighbours);

/// From where the feature's jaws are hidden least by the part, its name upright if possible. Its place must be known.
ViewFrom best_view(const SceneFeature& feature, const CouponScene& scene);

}  // namespace fitwright
