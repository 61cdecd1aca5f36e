#include "mesh/topology.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "base/number.hpp"
#include "mesh/grid.hpp"

namespace fitwright {
namespace {

/// A triangle's edge, leaving its corner `corner`.
struct Side {
  std::uint32_t from = 0, to = 0;
  std::uint32_t triangle = 0;
  std::uint32_t corner = 0;
};

bool before(const Side& a, const Side& b) { return std::tie(a.from, a.to) < std::tie(b.from, b.to); }
bool same(const Side& a, const Side& b) { return a.from == b.from && a.to == b.to; }

std::vector<Side> sides_of(const Mesh& mesh) {
  std::vector<Side> sides;
  sides.reserve(mesh.triangles.size() * 3);
  for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t)
    for (std::uint32_t i = 0; i < 3; ++i) sides.push_back({mesh.triangles[t][i], mesh.triangles[t][(i + 1) % 3], t, i});
  std::sort(sides.begin(), sides.end(), before);
  return sides;
}

std::vector<Side>::const_iterator find(const std::vector<Side>& sides, std::uint32_t from, std::uint32_t to) {
  const auto found = std::lower_bound(sides.begin(), sides.end(), Side{from, to}, before);
  return found != sides.end() && found->from == from && found->to == to ? found : sides.end();
}

/// First side that has no partner or more than one; end() when there is none.
std::vector<Side>::const_iterator first_open(const std::vector<Side>& sides) {
  for (auto s = sides.begin(); s != sides.end(); ++s) {
    const bool doubled = s + 1 != sides.end() && same(*s, *(s + 1));
    if (doubled || s->from == s->to || find(sides, s->to, s->from) == sides.end()) return s;
  }
  return sides.end();
}

using Vector = std::array<double, 3>;

Vector minus(const Vector& a, const Vector& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }
Vector cross(const Vector& a, const Vector& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}
bool flat(const Vector& a, const Vector& b, const Vector& c) {
  const Vector normal = cross(minus(b, a), minus(c, a));
  return normal[0] == 0 && normal[1] == 0 && normal[2] == 0;
}
Vector as_floats(const Vector& v) {
  Vector out{};
  for (std::size_t i = 0; i < 3; ++i) out[i] = static_cast<double>(static_cast<float>(v[i]));
  return out;
}

}  // namespace

void part_at_touching_points(Mesh& mesh) {
  const std::vector<Side> sides = sides_of(mesh);
  if (const auto open = first_open(sides); open != sides.end()) {
    const Vector& p = mesh.vertices[open->from];
    throw UnfitGrid("mesh_of: parts of the solid touch along an edge at x " + fixed(p[0], 4) + ", y " + fixed(p[1], 4) +
                    ", z " + fixed(p[2], 4) + " mm");
  }
  std::vector<bool> seen(sides.size(), false);
  std::vector<std::array<std::uint32_t, 3>> triangles = mesh.triangles;
  for (std::size_t first = 0; first < sides.size(); ++first) {
    if (seen[first]) continue;
    // The rings round a vertex: the first keeps it, the others get copies.
    const std::uint32_t v = sides[first].from;
    const bool keeps = first == 0 || sides[first - 1].from != v;
    auto own = v;
    if (!keeps) {
      own = static_cast<std::uint32_t>(mesh.vertices.size());
      mesh.vertices.push_back(Vector(mesh.vertices[v]));
    }
    for (std::size_t s = first; !seen[s];) {
      seen[s] = true;
      triangles[sides[s].triangle][sides[s].corner] = own;
      // The triangle's side that comes into v, seen from across, leaves v.
      const std::uint32_t last = mesh.triangles[sides[s].triangle][(sides[s].corner + 2) % 3];
      s = static_cast<std::size_t>(find(sides, v, last) - sides.begin());
    }
  }
  mesh.triangles = std::move(triangles);
}

Box bounds(const Mesh& mesh) {
  Box box;
  if (mesh.vertices.empty()) return box;
  box.low = box.high = mesh.vertices.front();
  for (const Vector& v : mesh.vertices)
    for (std::size_t i = 0; i < 3; ++i) {
      box.low[i] = std::min(box.low[i], v[i]);
      box.high[i] = std::max(box.high[i], v[i]);
    }
  return box;
}

double volume_mm3(const Mesh& mesh) {
  if (mesh.vertices.empty()) return 0;
  // Tetrahedra to a point amid the mesh rather than far off keep the terms, and so the rounding, small.
  const Box box = bounds(mesh);
  Vector middle{};
  for (std::size_t i = 0; i < 3; ++i) middle[i] = (box.low[i] + box.high[i]) / 2;
  double six_volumes = 0;
  for (const auto& [a, b, c] : mesh.triangles) {
    const Vector p = minus(mesh.vertices[a], middle);
    const Vector n = cross(minus(mesh.vertices[b], middle), minus(mesh.vertices[c], middle));
    six_volumes += p[0] * n[0] + p[1] * n[1] + p[2] * n[2];
  }
  return six_volumes / 6;
}

bool is_closed_and_oriented(const Mesh& mesh) {
  for (const auto& triangle : mesh.triangles)
    for (const std::uint32_t v : triangle)
      if (v >= mesh.vertices.size()) return false;
  const std::vector<Side> sides = sides_of(mesh);
  return !sides.empty() && first_open(sides) == sides.end();
}

std::size_t degenerate_triangles(const Mesh& mesh) {
  std::size_t count = 0;
  for (const auto& [a, b, c] : mesh.triangles) {
    const Vector &p = mesh.vertices[a], &q = mesh.vertices[b], &r = mesh.vertices[c];
    if (flat(p, q, r) || flat(as_floats(p), as_floats(q), as_floats(r))) ++count;
  }
  return count;
}

}  // namespace fitwright
