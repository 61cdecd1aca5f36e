#include "bench/coupon_jaws.hpp"

#include <algorithm>
#include <numbers>

namespace fitwright {
namespace {

// A jaw as most calipers have it: a thin blade that widens to its root (common practice, no source). Lengths in mm.
constexpr double past_mm = 1.6;        ///< of the tip beyond the point touched
constexpr double lying_past_mm = 1.5;  ///< the same on a height
constexpr double free_mm = 2.2;        ///< of the blade between part and root
constexpr double slope_mm = 1.4;       ///< from blade to root
constexpr double root_mm = 7;          ///< length of the root that is drawn
constexpr double tip_thick_mm = 1.2, blade_thick_mm = 1.9, root_thick_mm = 4;
constexpr double half_width_mm = 1.5;  ///< outside jaws touch with 3 mm
constexpr double shank_above_mm = 16;  ///< of a drill shank above the part
constexpr int shank_sides = 48;

/// Axes of a jaw: from the face touched into the jaw, along it to its root, and across.
struct JawFrame {
  Vec3 touch, into, reach, across;
};

/// Outline of a jaw from the side, and half its width.
struct Profile {
  struct Corner {
    double into_mm, reach_mm;
  };
  std::vector<Corner> corners;  ///< the first sees all others
  double half_mm = half_width_mm;
};

void add_triangle(JawSolid& solid, const Vec3& a, const Vec3& b, const Vec3& c) {
  const Vec3 normal = cross(b - a, c - a);
  if (length(normal) > 1e-12) solid.triangles.push_back({{a, b, c}, unit(normal)});
}

/// A profile drawn out across, both ends closed.
void add_jaw(JawSolid& solid, const JawFrame& frame, const Profile& profile) {
  std::vector<Vec3> left, right;
  for (const Profile::Corner& p : profile.corners) {
    const Vec3 middle = frame.touch + p.into_mm * frame.into + p.reach_mm * frame.reach;
    left.push_back(middle - profile.half_mm * frame.across);
    right.push_back(middle + profile.half_mm * frame.across);
  }
  const std::size_t n = profile.corners.size();
  const bool right_handed = dot(cross(frame.into, frame.reach), frame.across) > 0;
  const auto put = [&](const Vec3& a, const Vec3& b, const Vec3& c) {
    right_handed ? add_triangle(solid, a, b, c) : add_triangle(solid, a, c, b);
  };
  for (std::size_t i = 1; i + 1 < n; ++i) {
    put(right[0], right[i], right[i + 1]);
    put(left[0], left[i + 1], left[i]);
  }
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t j = (i + 1) % n;
    put(left[i], left[j], right[j]);
    put(left[i], right[j], right[i]);
    solid.edges.push_back({left[i], left[j]});
    solid.edges.push_back({right[i], right[j]});
    solid.edges.push_back({left[i], right[i]});
  }
}

/// Sizes that suit the place: blades that stand side by side in a small bore, and leave a neighbour alone.
struct JawSizes {
  double past = past_mm, tip = tip_thick_mm, blade = blade_thick_mm, root = root_thick_mm;
  double half = half_width_mm;
};

JawSizes sizes_for(const SceneFeature& f) {
  JawSizes s;
  const double nominal = length(f.b - f.a);
  if (f.reach.z == 0) s.past = lying_past_mm;
  if (f.reach.z > 0) s.past = std::min(s.past, f.a.z);  // nothing below the bed
  if (f.gauge == Gauge::inside_jaws) {
    s.tip = std::min(s.tip, 0.3 * nominal);
    s.blade = std::min(s.blade, 0.36 * nominal);
    s.root = std::max(s.blade, std::min(s.root, 0.3 * nominal));
    if (f.is_round()) s.half = std::min(half_width_mm, 0.1 * nominal);  // narrow: it touches a bore
  }
  return s;
}

Profile profile_for(const SceneFeature& f) {
  const JawSizes s = sizes_for(f);
  const double step = f.above_mm + free_mm, root = step + slope_mm, end = root + root_mm;
  return {{{0, step}, {0, -s.past}, {s.tip, -s.past}, {s.blade, step}, {s.root, root}, {s.root, end}, {0, end}},
          s.half};
}

void add_shank(JawSolid& solid, const SceneFeature& f) {
  const Vec3 foot = 0.5 * (f.a + f.b);
  const double radius = length(f.b - f.a) / 2;
  const double low = -f.a.z + 0.2, top = f.above_mm + shank_above_mm, bevel = radius / 3;
  struct Ring3 {
    double up, radius;
  };
  const std::vector<Ring3> rings{{low, 0}, {low, radius}, {top - bevel, radius}, {top, radius - bevel}, {top, 0}};
  const auto at = [&](const Ring3& ring, int side) {
    const double angle = 2 * std::numbers::pi * side / shank_sides;
    return foot + ring.radius * Vec3{std::cos(angle), std::sin(angle), 0} + ring.up * Vec3{0, 0, 1};
  };
  for (int side = 0; side < shank_sides; ++side)
    for (std::size_t i = 0; i + 1 < rings.size(); ++i) {
      const Vec3 a = at(rings[i], side), b = at(rings[i], side + 1), c = at(rings[i + 1], side + 1),
                 d = at(rings[i + 1], side);
      add_triangle(solid, a, b, c), add_triangle(solid, a, c, d);
      if (i > 0) solid.edges.push_back({a, b});
    }
}

}  // namespace

JawSolid jaws_at(const SceneFeature& feature, bool second) {
  JawSolid solid;
  if (feature.gauge == Gauge::shank) {
    add_shank(solid, feature);
    return solid;
  }
  SceneFeature f = feature;
  if (second && f.is_round()) {
    const Vec3 centre = 0.5 * (f.a + f.b);
    const double radius = length(f.b - f.a) / 2;
    f.along = {-feature.along.y, feature.along.x, 0};
    f.a = centre - radius * f.along, f.b = centre + radius * f.along;
  }
  const double outward = f.gauge == Gauge::inside_jaws ? 1 : -1;  // from a: away from b when outside
  const Profile profile = profile_for(f);
  const Vec3 across = cross(f.along, f.reach);
  add_jaw(solid, {f.a, outward * f.along, f.reach, across}, profile);
  add_jaw(solid, {f.b, -outward * f.along, f.reach, across}, profile);
  return solid;
}

}  // namespace fitwright
