// Which faces a feature is measured by.

#include <algorithm>
#include <numbers>

#include "bench/coupon_faces.hpp"
#include "design/design.hpp"

namespace fitwright {
namespace {

constexpr double at_face_mm = 0.05;      ///< jaw places lie on their face; a polygon's side lies a little inside
constexpr double facing = 0.9;           ///< cosine: sides of a polygon of 8 at its corner look 22.5 degrees away
constexpr double round_slack_mm = 0.02;  ///< beside the drawn circle: less than any step of a relief

/// Distance of a point from a triangle.
double distance(const Vec3& p, const SceneTriangle& t) {
  const double off = dot(p - t.at[0], t.normal);
  const Vec3 foot = p - off * t.normal;
  bool inside = true;
  double nearest = 1e9;
  for (std::size_t k = 0; k < 3; ++k) {
    const Vec3 &a = t.at[k], &b = t.at[(k + 1) % 3];
    const Vec3 edge = b - a;
    inside = inside && dot(cross(edge, foot - a), t.normal) >= 0;
    const double share = std::clamp(dot(p - a, edge) / std::max(dot(edge, edge), 1e-18), 0.0, 1.0);
    nearest = std::min(nearest, length(p - (a + share * edge)));
  }
  return inside ? std::abs(off) : nearest;
}

/// The face at `p` that looks along `normal`; -1 for none.
int face_at(const std::vector<SceneTriangle>& triangles, const Vec3& p, const Vec3& normal) {
  int face = -1;
  double nearest = at_face_mm;
  for (const SceneTriangle& t : triangles) {
    if (t.engraved || dot(t.normal, normal) < facing) continue;
    if (std::abs(dot(p - t.at[0], t.normal)) > at_face_mm) continue;
    if (const double d = distance(p, t); d < nearest) nearest = d, face = t.face;
  }
  return face;
}

bool on_circle(const SceneTriangle& t, const Vec3& centre, double radius, bool looks_out) {
  if (std::abs(t.normal.z) > 0.1) return false;
  const Vec3 middle = 1.0 / 3 * (t.at[0] + t.at[1] + t.at[2]);
  const Vec3 out{middle.x - centre.x, middle.y - centre.y, 0};
  if ((dot(out, t.normal) > 0) != looks_out) return false;
  return std::all_of(t.at.begin(), t.at.end(), [&](const Vec3& corner) {
    return std::abs(std::hypot(corner.x - centre.x, corner.y - centre.y) - radius) < round_slack_mm;
  });
}

void take(SceneFeature& f, const std::vector<SceneTriangle>& triangles, int face) {
  for (std::size_t i = 0; i < triangles.size(); ++i)
    if (triangles[i].face == face) f.triangles.push_back(static_cast<std::uint32_t>(i));
}

void add_outline(SceneFeature& f, const std::vector<SceneTriangle>& triangles, const Neighbours& neighbours) {
  const bool height = f.reach.z == 0;  // its lower face is the whole bottom: no outline of it
  std::vector<bool> own(triangles.size());
  for (const std::uint32_t i : f.triangles) own[i] = true;
  for (const std::uint32_t i : f.triangles)
    for (std::size_t k = 0; k < 3; ++k) {
      if (height && triangles[i].normal.z < 0) continue;
      const int other = neighbours[i][k];
      if (other >= 0 && own[static_cast<std::size_t>(other)]) continue;
      f.outline.push_back({triangles[i].at[k], triangles[i].at[(k + 1) % 3]});
    }
}

/// Jaws lie on a step from the nearest side of the part.
Vec3 nearest_side(const Vec3& p, const Vec3& size) {
  const double left = p.x, right = size.x - p.x, front = p.y, back = size.y - p.y;
  const double least = std::min({left, right, front, back});
  if (least == left) return {-1, 0, 0};
  if (least == right) return {1, 0, 0};
  return {0, least == front ? -1.0 : 1.0, 0};
}

SceneFeature placed(const JawPlace& place, const Feature& feature, const Vec3& size) {
  SceneFeature f;
  f.feature = feature;
  f.gauge = feature.kind == Kind::pin ? Gauge::shank : place.inside ? Gauge::inside_jaws : Gauge::outside_jaws;
  f.a = {place.ax, place.ay, place.z_mm}, f.b = {place.bx, place.by, place.z_mm};
  f.reach = {0, 0, 1};
  if (feature.axis == Axis::z && f.a == f.b) {  // a height
    f.a.z = 0, f.b.z = feature.nominal_mm;
    f.reach = nearest_side(f.a, size);
  }
  f.along = unit(f.b - f.a);
  return f;
}

void find_faces(SceneFeature& f, const CouponScene& scene) {
  const std::vector<SceneTriangle>& triangles = scene.triangles;
  const bool inside = f.gauge != Gauge::outside_jaws;
  if (f.is_round()) {
    const Vec3 centre = 0.5 * (f.a + f.b);
    for (std::size_t i = 0; i < triangles.size(); ++i)
      if (on_circle(triangles[i], centre, length(f.b - f.a) / 2, !inside))
        f.triangles.push_back(static_cast<std::uint32_t>(i));
  } else {
    const double out = inside ? -1 : 1;
    for (const auto& [p, normal] : {std::pair{f.a, -out * f.along}, std::pair{f.b, out * f.along}})
      take(f, triangles, face_at(triangles, p, normal));
  }
  std::sort(f.triangles.begin(), f.triangles.end());
  f.triangles.erase(std::unique(f.triangles.begin(), f.triangles.end()), f.triangles.end());
  const Vec3 size = scene.size;
  if (f.reach.z == 0) {
    f.above_mm = f.reach.x < 0 ? f.a.x : f.reach.x > 0 ? size.x - f.a.x : f.reach.y < 0 ? f.a.y : size.y - f.a.y;
    return;
  }
  double top = f.a.z;
  for (const std::uint32_t i : f.triangles)
    for (const Vec3& corner : triangles[i].at) top = std::max(top, corner.z);
  f.above_mm = top - f.a.z;
}

}  // namespace

bool SceneFeature::is_round() const {
  return feature.kind == Kind::hole || feature.kind == Kind::peg || feature.kind == Kind::pin;
}

void add_features(CouponScene& scene, const Coupon& coupon, const Neighbours& neighbours) {
  for (const JawPlace& place : coupon.places) {
    const auto found = std::find_if(coupon.features.begin(), coupon.features.end(),
                                    [&](const Feature& f) { return f.id == place.feature_id; });
    if (found == coupon.features.end()) continue;
    SceneFeature f = placed(place, *found, scene.size);
    find_faces(f, scene);
    f.seen_from = best_view(f, scene);
    add_outline(f, scene.triangles, neighbours);
    scene.features.push_back(std::move(f));
  }
  for (std::size_t i = 0; i < scene.features.size(); ++i)
    for (const std::uint32_t t : scene.features[i].triangles) {
      int& owner = scene.triangles[t].feature;
      if (owner < 0 ||
          scene.features[i].feature.nominal_mm < scene.features[static_cast<std::size_t>(owner)].feature.nominal_mm)
        owner = static_cast<int>(i);
    }
}

}  // namespace fitwright
