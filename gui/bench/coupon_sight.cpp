// From where a feature is seen best: of a few directions, the one in which the part hides least of its jaws.

#include <algorithm>
#include <numbers>

#include "bench/coupon_faces.hpp"

namespace fitwright {
namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr double steep_rad = 42 * degree, shallow_rad = 34 * degree, level_rad = 14 * degree;
constexpr double aside_rad = 24 * degree;  ///< from square on, so that one touched face shows
constexpr double thin_mm = 2;              ///< jaws on less than that hide each other from the side

/// A direction, and what it takes off the share of the jaws that is seen.
struct Candidate {
  ViewFrom from;
  double dislike;
};

double azimuth(const Vec3& v) { return std::atan2(v.y, v.x); }

/// The side of the part that is nearer, across the reach of the jaws.
Vec3 nearer_side(const SceneFeature& f, const Vec3& size) {
  if (f.reach.x != 0) return {0, f.a.y < size.y / 2 ? -1.0 : 1.0, 0};
  return {f.a.x < size.x / 2 ? -1.0 : 1.0, 0, 0};
}

std::vector<Candidate> candidates(const SceneFeature& f, const Vec3& size) {
  std::vector<Candidate> list;
  constexpr double turned_name = 0.25, other_hand = 0.02, steeper = 0.14;
  if (f.reach.z == 0) {  // a height: from the side, low, so that both jaws are seen
    const double side = azimuth(nearer_side(f, size));
    const double toward = std::remainder(azimuth(f.reach) - side, 2 * std::numbers::pi) > 0 ? aside_rad : -aside_rad;
    for (const double other : {0.0, 1.0})
      list.push_back({{side + toward + other * (std::numbers::pi - 2 * aside_rad), level_rad}, 0.1 * other});
    return list;
  }
  double square_on = -90 * degree, aside = aside_rad;  // round: from the front
  if (length(f.b - f.a) < thin_mm)
    square_on = azimuth(-1 * f.along), aside = 52 * degree;  // a wall: from its outer side
  else if (!f.is_round())
    square_on = azimuth({f.along.y, -f.along.x, 0});  // the jaws' line runs from left to right, or to the back
  if (std::abs(f.along.y) > 0.9 && !f.is_round()) aside = -aside;
  const bool inside = f.gauge != Gauge::outside_jaws;
  for (const double opposite : {0.0, 1.0})
    for (const double hand : {1.0, -1.0})
      for (const double more : {0.0, 12 * degree, 24 * degree}) {
        const ViewFrom from{square_on + hand * aside + opposite * std::numbers::pi,
                            (inside ? steep_rad : shallow_rad) + more};
        list.push_back({from, opposite * turned_name + (hand < 0 ? other_hand : 0) + steeper * more / (12 * degree)});
      }
  return list;
}

/// Points of the jaws that should be seen: where they touch, and up their blades.
std::vector<Vec3> points_to_see(const SceneFeature& f) {
  constexpr double off_mm = 0.6;  // into the jaw
  const double outward = f.gauge == Gauge::outside_jaws ? -1 : 1;
  std::vector<Vec3> points;
  for (const auto& [p, into] : {std::pair{f.a, outward * f.along}, std::pair{f.b, -outward * f.along}})
    for (const double up : {-1.0, 0.0, 1.5, f.above_mm, f.above_mm + 4})
      points.push_back(p + off_mm * into + up * f.reach);
  return points;
}

bool meets(const SceneTriangle& t, const Vec3& from, const Vec3& along) {
  const Vec3 e1 = t.at[1] - t.at[0], e2 = t.at[2] - t.at[0], p = cross(along, e2);
  const double det = dot(e1, p);
  if (std::abs(det) < 1e-12) return false;
  const Vec3 s = from - t.at[0];
  const double u = dot(s, p) / det;
  if (u < 0 || u > 1) return false;
  const Vec3 q = cross(s, e1);
  const double v = dot(along, q) / det;
  return v >= 0 && u + v <= 1 && dot(e2, q) / det > 0;
}

/// Triangles that can stand before a point for an eye at `level_rad` or above: near enough to it for their height.
std::vector<const SceneTriangle*> near(const SceneFeature& f, const CouponScene& scene, double lowest_rad) {
  const double reach = scene.size.z / std::tan(lowest_rad) + 1;
  std::vector<const SceneTriangle*> found;
  for (const SceneTriangle& t : scene.triangles) {
    if (t.engraved) continue;
    const auto beside = [&](const Vec3& p) {
      const auto [x0, x1] = std::minmax({t.at[0].x, t.at[1].x, t.at[2].x});
      const auto [y0, y1] = std::minmax({t.at[0].y, t.at[1].y, t.at[2].y});
      return x1 > p.x - reach && x0 < p.x + reach && y1 > p.y - reach && y0 < p.y + reach;
    };
    if (beside(f.a) || beside(f.b)) found.push_back(&t);
  }
  return found;
}

}  // namespace

ViewFrom best_view(const SceneFeature& feature, const CouponScene& scene) {
  const std::vector<Candidate> list = candidates(feature, scene.size);
  const std::vector<Vec3> points = points_to_see(feature);
  const std::vector<const SceneTriangle*> before = near(feature, scene, list.front().from.elevation_rad);
  ViewFrom best = list.front().from;
  double most = -1e9;
  for (const Candidate& c : list) {
    if (1 - c.dislike <= most) continue;  // cannot win any more
    const double ce = std::cos(c.from.elevation_rad);
    const Vec3 toward{ce * std::cos(c.from.azimuth_rad), ce * std::sin(c.from.azimuth_rad),
                      std::sin(c.from.elevation_rad)};
    int seen = 0;
    for (const Vec3& p : points)
      seen += std::none_of(before.begin(), before.end(), [&](const SceneTriangle* t) { return meets(*t, p, toward); });
    const double worth = static_cast<double>(seen) / static_cast<double>(points.size()) - c.dislike;
    if (worth > most) most = worth, best = c.from;
  }
  return best;
}

}  // namespace fitwright
