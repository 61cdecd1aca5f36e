#include "bench/coupon_scene.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

#include "bench/coupon_faces.hpp"
#include "design/design.hpp"
#include "design/drafting.hpp"
#include "mesh/mesh.hpp"

namespace fitwright {
namespace {

struct HalfEdge {
  std::uint32_t low, high;
  int triangle;
  std::size_t corner;
};

Neighbours neighbours_of(const Mesh& mesh) {
  std::vector<HalfEdge> edges;
  edges.reserve(3 * mesh.triangles.size());
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t)
    for (std::size_t k = 0; k < 3; ++k) {
      const auto [low, high] = std::minmax(mesh.triangles[t][k], mesh.triangles[t][(k + 1) % 3]);
      edges.push_back({low, high, static_cast<int>(t), k});
    }
  std::sort(edges.begin(), edges.end(), [](const HalfEdge& a, const HalfEdge& b) {
    return std::pair{a.low, a.high} < std::pair{b.low, b.high};
  });
  Neighbours neighbours(mesh.triangles.size(), {-1, -1, -1});
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) {  // a coupon's mesh is closed: two of each
    const HalfEdge &a = edges[i], &b = edges[i + 1];
    if (a.low != b.low || a.high != b.high) continue;
    neighbours[static_cast<std::size_t>(a.triangle)][a.corner] = b.triangle;
    neighbours[static_cast<std::size_t>(b.triangle)][b.corner] = a.triangle;
  }
  return neighbours;
}

void add_triangles(CouponScene& scene, const Mesh& mesh) {
  scene.triangles.reserve(mesh.triangles.size());
  for (const auto& corners : mesh.triangles) {
    SceneTriangle t;
    for (std::size_t k = 0; k < 3; ++k) {
      const auto& v = mesh.vertices[corners[k]];
      t.at[k] = {v[0], v[1], v[2]};
    }
    t.normal = unit(cross(t.at[1] - t.at[0], t.at[2] - t.at[0]));
    scene.triangles.push_back(t);
  }
}

/// Numbers the smooth faces: triangles joined by edges that are not feature edges.
void number_faces(std::vector<SceneTriangle>& triangles, const Neighbours& neighbours) {
  const double flat = std::cos(feature_edge_rad);
  for (SceneTriangle& t : triangles) t.face = -1;
  int faces = 0;
  std::vector<std::size_t> open;
  for (std::size_t start = 0; start < triangles.size(); ++start) {
    if (triangles[start].face >= 0) continue;
    triangles[start].face = faces;
    open.push_back(start);
    while (!open.empty()) {
      const std::size_t t = open.back();
      open.pop_back();
      for (const int other : neighbours[t]) {
        if (other < 0) continue;
        SceneTriangle& next = triangles[static_cast<std::size_t>(other)];
        if (next.face >= 0 || dot(next.normal, triangles[t].normal) < flat) continue;
        next.face = faces;
        open.push_back(static_cast<std::size_t>(other));
      }
    }
    ++faces;
  }
}

/// Even-odd, with boxes to spare most of the work.
class Inside {
 public:
  explicit Inside(const Region& region) {
    for (const Ring& ring : region) {
      Outline o;
      for (const auto& p : ring) {
        o.points.push_back({mm(p.x), mm(p.y), 0});
        o.x0 = std::min(o.x0, mm(p.x)), o.x1 = std::max(o.x1, mm(p.x));
        o.y0 = std::min(o.y0, mm(p.y)), o.y1 = std::max(o.y1, mm(p.y));
      }
      outlines_.push_back(std::move(o));
    }
  }

  [[nodiscard]] bool holds(double x, double y) const {
    bool inside = false;
    for (const Outline& o : outlines_) {
      if (x < o.x0 || x > o.x1 || y < o.y0 || y > o.y1) continue;
      for (std::size_t i = 0, j = o.points.size() - 1; i < o.points.size(); j = i++) {
        const Vec3 &p = o.points[i], &q = o.points[j];
        if ((p.y > y) != (q.y > y) && x < p.x + (q.x - p.x) * (y - p.y) / (q.y - p.y)) inside = !inside;
      }
    }
    return inside;
  }

 private:
  struct Outline {
    std::vector<Vec3> points;
    double x0 = std::numeric_limits<double>::max(), y0 = x0, x1 = -x0, y1 = -x0;
  };
  std::vector<Outline> outlines_;
};

/// Floors of names and marks look up from inside their outlines; their sides are upright and touch a floor.
void mark_engraved(std::vector<SceneTriangle>& triangles, const Neighbours& neighbours, const Region& engraved) {
  constexpr double upright = 1e-6;
  const Inside inside(engraved);
  for (SceneTriangle& t : triangles) {
    const Vec3 middle = 1.0 / 3 * (t.at[0] + t.at[1] + t.at[2]);
    t.engraved = t.normal.z > 0.5 && inside.holds(middle.x, middle.y);
  }
  for (int round = 0; round < 2; ++round) {  // a side is two triangles: one at the floor, one beside it
    std::vector<std::size_t> sides;
    for (std::size_t i = 0; i < triangles.size(); ++i) {
      if (triangles[i].engraved || std::abs(triangles[i].normal.z) > upright) continue;
      for (const int other : neighbours[i])
        if (other >= 0 && triangles[static_cast<std::size_t>(other)].engraved) {
          sides.push_back(i);
          break;
        }
    }
    for (const std::size_t i : sides) triangles[i].engraved = true;
  }
}

void add_edges(CouponScene& scene, const Neighbours& neighbours) {
  const double flat = std::cos(feature_edge_rad);
  for (std::size_t i = 0; i < scene.triangles.size(); ++i)
    for (std::size_t k = 0; k < 3; ++k) {
      const int other = neighbours[i][k];
      if (other < static_cast<int>(i)) continue;  // each edge once
      const SceneTriangle &t = scene.triangles[i], &next = scene.triangles[static_cast<std::size_t>(other)];
      if (dot(t.normal, next.normal) >= flat) continue;
      scene.edges.push_back({{t.at[k], t.at[(k + 1) % 3]}, t.engraved || next.engraved});
    }
}

void add_names(CouponScene& scene, const Coupon& coupon) {
  for (const Label& label : coupon.labels) {
    const int feature = scene.find(label.text);
    if (feature < 0) continue;
    const Area area = area_of(label);
    scene.names.push_back({feature, area.x0, area.y0, area.x1, area.y1});
  }
}

}  // namespace

int CouponScene::find(const std::string& id) const {
  const auto found =
      std::find_if(features.begin(), features.end(), [&](const SceneFeature& f) { return f.feature.id == id; });
  return found == features.end() ? -1 : static_cast<int>(found - features.begin());
}

CouponScene coupon_scene(std::shared_ptr<const Coupon> coupon) {
  CouponScene scene;
  scene.coupon = std::move(coupon);
  const Coupon& made = *scene.coupon;
  scene.size = {made.size_x_mm, made.size_y_mm, made.size_z_mm};
  const Mesh mesh = mesh_of(made.solid);
  const Neighbours neighbours = neighbours_of(mesh);
  add_triangles(scene, mesh);
  number_faces(scene.triangles, neighbours);
  mark_engraved(scene.triangles, neighbours, made.engraved);
  add_edges(scene, neighbours);
  add_features(scene, made, neighbours);
  add_names(scene, made);
  return scene;
}

}  // namespace fitwright
