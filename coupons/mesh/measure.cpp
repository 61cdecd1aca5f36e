#include "mesh/measure.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>
#include <utility>

namespace fitwright {
namespace {

using Vector = std::array<double, 3>;

/// Meetings closer than this are one: the line went through an edge. Far below the 1 nm of outlines.
constexpr double same_mm = 1e-9;

Vector minus(const Vector& a, const Vector& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }
double dot(const Vector& a, const Vector& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
Vector cross(const Vector& a, const Vector& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

}  // namespace

std::vector<double> crossings_mm(const Mesh& mesh, const Vector& point, const Vector& direction) {
  const double length = std::sqrt(dot(direction, direction));
  if (!(length > 0)) throw std::logic_error("crossings_mm: the direction must not be zero");
  const Vector along{direction[0] / length, direction[1] / length, direction[2] / length};
  std::vector<double> met;
  for (const auto& [ia, ib, ic] : mesh.triangles) {
    const Vector a = minus(mesh.vertices[ia], point), b = minus(mesh.vertices[ib], point),
                 c = minus(mesh.vertices[ic], point);
    // Volumes spanned by the line and each edge: all of one sign when the line passes inside.
    const double ab = dot(along, cross(a, b)), bc = dot(along, cross(b, c)), ca = dot(along, cross(c, a));
    const bool inside = (ab >= 0 && bc >= 0 && ca >= 0) || (ab <= 0 && bc <= 0 && ca <= 0);
    const double whole = ab + bc + ca;
    if (!inside || whole == 0) continue;
    met.push_back((bc * dot(a, along) + ca * dot(b, along) + ab * dot(c, along)) / whole);
  }
  std::sort(met.begin(), met.end());
  met.erase(std::unique(met.begin(), met.end(), [](double x, double y) { return y - x < same_mm; }), met.end());
  return met;
}

std::optional<double> width_mm(const Mesh& mesh, const Vector& point, const Vector& direction) {
  const std::vector<double> met = crossings_mm(mesh, point, direction);
  const auto after = std::upper_bound(met.begin(), met.end(), 0.0);
  if (after == met.begin() || after == met.end()) return std::nullopt;
  return *after - *(after - 1);
}

std::optional<RoundMeasure> round_mm(const Mesh& mesh, double x, double y, double z, double reach_mm, double slack_mm) {
  std::set<std::pair<double, double>> places;
  for (const auto& triangle : mesh.triangles)
    for (std::size_t i = 0; i < 3; ++i) {
      const Vector &p = mesh.vertices[triangle[i]], &q = mesh.vertices[triangle[(i + 1) % 3]];
      if (p[0] == q[0] && p[1] == q[1] && std::min(p[2], q[2]) < z && z < std::max(p[2], q[2]))
        places.emplace(p[0], p[1]);
    }
  std::vector<double> radii;
  for (const auto& [px, py] : places)
    if (const double r = std::hypot(px - x, py - y); r <= reach_mm) radii.push_back(r);
  if (radii.empty()) return std::nullopt;
  std::sort(radii.begin(), radii.end());
  radii.erase(std::upper_bound(radii.begin(), radii.end(), radii.front() + slack_mm), radii.end());
  RoundMeasure measure;
  for (const double r : radii) measure.diameter_mm += 2 * r / static_cast<double>(radii.size());
  measure.spread_mm = radii.back() - radii.front();
  measure.facets = static_cast<int>(radii.size());
  return measure;
}

}  // namespace fitwright
