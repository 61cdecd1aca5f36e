// How a coupon lies, and from where its features are looked at.

#include <algorithm>
#include <numbers>

#include "bench/coupon_scene.hpp"

namespace fitwright {
namespace {

constexpr double degree = std::numbers::pi / 180;

/// Cosine and sine of quarter turns, exactly.
struct Quarter {
  double c = 1, s = 0;
};

Quarter quarter(int turned_deg) {
  switch (((turned_deg / 90) % 4 + 4) % 4) {
    case 1:
      return {0, 1};
    case 2:
      return {-1, 0};
    case 3:
      return {0, -1};
    default:
      return {1, 0};
  }
}

Vec3 turned(const Quarter& q, const Vec3& v) { return {q.c * v.x - q.s * v.y, q.s * v.x + q.c * v.y, v.z}; }

/// Where the part's own origin comes to lie.
Vec3 origin(const Pose& pose) {
  const Quarter q = quarter(pose.turned_deg);
  const Vec3 middle = turned(q, {pose.size.x / 2, pose.size.y / 2, 0});
  const bool swapped = q.s != 0;
  const double x = pose.bed_x_mm > 0 ? pose.bed_x_mm / 2 : (swapped ? pose.size.y : pose.size.x) / 2;
  const double y = pose.bed_y_mm > 0 ? pose.bed_y_mm / 2 : (swapped ? pose.size.x : pose.size.y) / 2;
  return {x - middle.x, y - middle.y, 0};
}

std::vector<Vec3> corners(const Vec3& low, const Vec3& high) {
  std::vector<Vec3> points;
  for (const double x : {low.x, high.x})
    for (const double y : {low.y, high.y})
      for (const double z : {low.z, high.z}) points.push_back({x, y, z});
  return points;
}

/// Held within a little of the part: what is farther away shows nothing.
Vec3 beside_part(const Vec3& p, const Vec3& size) {
  constexpr double margin_mm = 3;
  return {std::clamp(p.x, -margin_mm, size.x + margin_mm), std::clamp(p.y, -margin_mm, size.y + margin_mm), p.z};
}

}  // namespace

Vec3 Pose::turn_to_bed(const Vec3& direction) const { return turned(quarter(turned_deg), direction); }
Vec3 Pose::turn_to_part(const Vec3& direction) const { return turned(quarter(-turned_deg), direction); }
Vec3 Pose::to_bed(const Vec3& part) const { return origin(*this) + turn_to_bed(part); }
Vec3 Pose::to_part(const Vec3& bed) const { return turn_to_part(bed - origin(*this)); }

Matrix4 Pose::matrix() const {
  const Quarter q = quarter(turned_deg);
  const Vec3 o = origin(*this);
  return {q.c, q.s, 0, 0, -q.s, q.c, 0, 0, 0, 0, 1, 0, o.x, o.y, o.z, 1};
}

Camera camera_for_all(const Pose& pose, const Viewport& view) {
  constexpr double from_rad = -70 * degree, down_rad = 44 * degree, letters_mm = 22;
  Camera camera;
  camera.azimuth_rad = from_rad, camera.elevation_rad = down_rad;
  const bool bed = pose.bed_x_mm > 0 && pose.bed_y_mm > 0;
  const Vec3 a = pose.to_bed({0, 0, 0}), b = pose.to_bed(pose.size);
  std::vector<Vec3> points =
      corners({std::min(a.x, b.x), std::min(a.y, b.y), 0}, {std::max(a.x, b.x), std::max(a.y, b.y), pose.size.z});
  if (bed)
    for (const Vec3& p : corners({-letters_mm / 3, -letters_mm / 3, 0}, {pose.bed_x_mm, pose.bed_y_mm, 0}))
      points.push_back(p);
  else
    for (const Vec3& p : corners({-letters_mm, -letters_mm, 0}, {0, 0, 0})) points.push_back(p);
  return fit(camera, points, view);
}

Camera camera_for(const SceneFeature& feature, const Pose& pose, const Viewport& view) {
  Camera camera;
  camera.azimuth_rad = std::remainder(feature.seen_from.azimuth_rad + pose.turned_deg * degree, 2 * std::numbers::pi);
  camera.elevation_rad = feature.seen_from.elevation_rad;
  const double nominal = length(feature.b - feature.a);
  constexpr double jaws_mm = 13, shank_mm = 18;  // above the part
  constexpr double thick_mm = 5;                 // of a jaw, from the face
  constexpr double around_mm = 16;               // enough to know where on the part it is
  constexpr double toward_centre = 0.4;          // more of the part than of what is beside it
  constexpr double nearly_all = 0.55;            // a length of that share of the part: show it whole
  const double above = feature.above_mm + (feature.gauge == Gauge::shank ? shank_mm : jaws_mm);
  std::vector<Vec3> points;
  for (const auto& [p, out] : {std::pair{feature.a, -1 * feature.along}, std::pair{feature.b, feature.along}}) {
    points.push_back(pose.to_bed(p + above * feature.reach));
    points.push_back(pose.to_bed(p + above * feature.reach + thick_mm * out));
    for (const Vec3& side : {Vec3{1, 0, 0}, Vec3{-1, 0, 0}, Vec3{0, 1, 0}, Vec3{0, -1, 0}})
      points.push_back(pose.to_bed(beside_part(p + around_mm * side, pose.size)));
  }
  const Vec3 place = 0.5 * (feature.a + feature.b), centre{pose.size.x / 2, pose.size.y / 2, place.z};
  points.push_back(pose.to_bed(place + toward_centre * (centre - place)));
  if (nominal > nearly_all * std::max(pose.size.x, pose.size.y))
    for (const Vec3& p : corners({0, 0, 0}, pose.size)) points.push_back(pose.to_bed(p));
  return fit(camera, points, view);
}

}  // namespace fitwright
