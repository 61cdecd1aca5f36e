// What is under the pointer, and how it is said.

#include <algorithm>
#include <optional>

#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/coupon_scene.hpp"
#include "bench/shown.hpp"
#include "design/design.hpp"

namespace fitwright {
namespace {

constexpr double around_name_mm = 0.8;  ///< beside the letters of a name
constexpr double reach_mm = 6;          ///< from a place: width of a bar, wall of a ring, depth of a step
constexpr double as_near_mm = 1.5;      ///< places that near to each other lie on one line

struct Hit {
  std::size_t triangle;
  Vec3 at;
};

/// First triangle that the ray meets from outside (T. Moeller and B. Trumbore, Fast, Minimum Storage Ray/Triangle
/// Intersection, 1997).
std::optional<Hit> first_hit(const std::vector<SceneTriangle>& triangles, const Ray& ray) {
  std::optional<Hit> hit;
  double nearest = 1e12;
  for (std::size_t i = 0; i < triangles.size(); ++i) {
    const SceneTriangle& t = triangles[i];
    if (dot(ray.along, t.normal) >= 0) continue;
    const Vec3 e1 = t.at[1] - t.at[0], e2 = t.at[2] - t.at[0], p = cross(ray.along, e2);
    const double det = dot(e1, p);
    if (std::abs(det) < 1e-15) continue;
    const Vec3 s = ray.from - t.at[0];
    const double u = dot(s, p) / det;
    if (u < 0 || u > 1) continue;
    const Vec3 q = cross(s, e1);
    const double v = dot(ray.along, q) / det;
    if (v < 0 || u + v > 1) continue;
    const double away = dot(e2, q) / det;
    if (away <= 0 || away >= nearest) continue;
    nearest = away;
    hit = Hit{i, ray.from + away * ray.along};
  }
  return hit;
}

int by_name(const CouponScene& scene, const Hit& hit) {
  for (const SceneName& n : scene.names)
    if (hit.at.x > n.x0 - around_name_mm && hit.at.x < n.x1 + around_name_mm && hit.at.y > n.y0 - around_name_mm &&
        hit.at.y < n.y1 + around_name_mm && scene.triangles[hit.triangle].normal.z > 0.5)
      return n.feature;
  return -1;
}

/// How far a point is from a feature's place: from the line between the jaws; of round ones, from the circle.
double away_from(const SceneFeature& f, const Vec3& p) {
  if (f.is_round()) {
    const Vec3 centre = 0.5 * (f.a + f.b);
    return std::max(0.0, std::hypot(p.x - centre.x, p.y - centre.y) - length(f.b - f.a) / 2);
  }
  const Vec3 line = f.b - f.a;
  const double share = std::clamp(dot(p - f.a, line) / dot(line, line), 0.0, 1.0);
  const Vec3 d = p - (f.a + share * line);
  return f.reach.z == 0 ? length(d) : std::hypot(d.x, d.y);
}

/// The nearest of the features for which `distance` gives a value up to `reach`; of those as near, the shortest.
template <class Distance>
int nearest(const CouponScene& scene, double reach, const Distance& distance) {
  double least = reach;
  std::vector<double> away;
  for (const SceneFeature& f : scene.features) {
    away.push_back(distance(f));
    least = std::min(least, away.back());
  }
  int found = -1;
  for (std::size_t i = 0; i < away.size(); ++i) {
    if (away[i] > reach || away[i] > least + as_near_mm) continue;
    if (found < 0 || scene.features[i].feature.nominal_mm <
                         scene.features[static_cast<std::size_t>(found)].feature.nominal_mm - 1e-9)
      found = static_cast<int>(i);
  }
  return found;
}

int by_face(const CouponScene& scene, const Hit& hit) {
  if (scene.triangles[hit.triangle].feature < 0) return -1;
  const auto index = static_cast<std::uint32_t>(hit.triangle);
  constexpr double never = 1e9;
  return nearest(scene, never / 2, [&](const SceneFeature& f) {
    if (!std::binary_search(f.triangles.begin(), f.triangles.end(), index)) return never;
    return std::min(length(hit.at - f.a), length(hit.at - f.b));
  });
}

std::string gauge_words(Gauge gauge) {
  switch (gauge) {
    case Gauge::inside_jaws:
      return tr("inside jaws");
    case Gauge::shank:
      return tr("a drill shank");
    default:
      return tr("outside jaws");
  }
}

}  // namespace

int pick(const CouponScene& scene, const Pose& pose, const Camera& camera, const Viewport& view, double x, double y) {
  const Ray seen = ray_through(camera, view, x, y);
  return pick(scene, {pose.to_part(seen.from), pose.turn_to_part(seen.along)});
}

int pick(const CouponScene& scene, const Ray& part_ray) {
  const std::optional<Hit> hit = first_hit(scene.triangles, part_ray);
  if (!hit) return -1;
  if (const int named = by_name(scene, *hit); named >= 0) return named;
  if (const int touched = by_face(scene, *hit); touched >= 0) return touched;
  return nearest(scene, reach_mm, [&](const SceneFeature& f) { return away_from(f, hit->at); });
}

std::string said_of(const SceneFeature& f) {
  return said("{}, {}, {} mm", f.feature.id, spoken(f.feature.kind), said_fixed(f.feature.nominal_mm, 2));
}

std::string said_of(const CouponScene& scene, const Pose& pose, int feature) {
  const std::string name = tr(scene.coupon->design.c_str());
  const std::string coupon = pose.turned_deg != 0
                                 ? said("The {} coupon, turned {}\u00b0 anticlockwise", name, pose.turned_deg)
                                 : said("The {} coupon", name);
  if (feature < 0) return said_many("{1}, with {0} feature.", "{1}, with {0} features.", scene.features.size(), coupon);
  const SceneFeature& f = scene.features[static_cast<std::size_t>(feature)];
  const std::string words = said_of(f) + (f.feature.label.empty() ? "" : " (" + label_words(f.feature.label) + ")");
  return said("{}: {}, with {}.", coupon, words, gauge_words(f.gauge));
}

}  // namespace fitwright
