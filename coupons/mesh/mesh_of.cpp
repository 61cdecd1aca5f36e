// From a stack of slabs to triangles.
//
// 1. All outlines are rounded to a grid that floats hold exactly (grid.hpp).
// 2. All outline edges are cut against each other in the plan (arrangement.hpp): from here on nothing is rounded.
// 3. At each height where slabs meet, the plan of the two is triangulated. A triangle covered only by the slab below
//    is an upward face there, one covered only by the slab above a downward face.
// 4. Each piece of a slab's outline carries an upright wall of two triangles.
// Faces and walls share the points of the plan, so the surface is closed, and no vertex lies inside an edge.

#include <algorithm>
#include <array>
#include <cstdint>
#include <map>
#include <stdexcept>
#include <utility>
#include <vector>

#include "mesh/arrangement.hpp"
#include "mesh/mesh.hpp"
#include "mesh/topology.hpp"
#include "mesh/triangulation.hpp"

namespace fitwright {
namespace {

void check(const Solid& solid) {
  if (solid.slabs.empty()) throw std::logic_error("mesh_of: a solid needs a slab");
  for (std::size_t i = 0; i < solid.slabs.size(); ++i) {
    const Slab& slab = solid.slabs[i];
    if (slab.bottom >= slab.top) throw std::logic_error("mesh_of: a slab's top must be above its bottom");
    if (i > 0 && slab.bottom != solid.slabs[i - 1].top)
      throw std::logic_error("mesh_of: a slab must begin where the one below it ends");
    for (const Ring& ring : slab.region)
      if (ring.size() < 3) throw std::logic_error("mesh_of: an outline needs three points");
  }
}

std::vector<OutlineEdge> edges_of(const Solid& solid, const Grid& grid) {
  std::vector<OutlineEdge> edges;
  for (std::size_t s = 0; s < solid.slabs.size(); ++s)
    for (const Ring& ring : solid.slabs[s].region)
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point &p = ring[i], &q = ring[(i + 1) % ring.size()];
        edges.push_back({{grid.steps(p.x), grid.steps(p.y)}, {grid.steps(q.x), grid.steps(q.y)}, static_cast<int>(s)});
      }
  return edges;
}

/// How often the outlines of the slab below and the slab above go round a place; above 0 means material.
using Winding = std::array<int, 2>;

/// The plan at one height: what lies below and above each of its triangles.
struct Section {
  std::vector<std::uint32_t> points;  // section's point to the plan's
  std::vector<std::array<std::uint32_t, 2>> edges;
  std::vector<Winding> turns;  // per edge, left minus right
  Triangulation triangulation;
  std::vector<Winding> winding;  // per triangle

  [[nodiscard]] bool material(std::size_t triangle, std::size_t which) const { return winding[triangle][which] > 0; }
};

/// Spreads winding numbers from the box's margin, where they are 0, over all triangles.
void spread_winding(Section& section) {
  const auto& triangles = section.triangulation.triangles;
  section.winding.assign(triangles.size(), {});
  std::vector<bool> known(triangles.size(), false);
  std::vector<std::size_t> todo;
  for (std::size_t t = 0; t < triangles.size() && todo.empty(); ++t)
    for (const std::uint32_t v : triangles[t].corner)
      if (v >= section.triangulation.first_box_corner) todo.assign(1, t);
  known[todo.front()] = true;
  while (!todo.empty()) {
    const std::size_t t = todo.back();
    todo.pop_back();
    for (std::size_t i = 0; i < 3; ++i) {
      if (triangles[t].beside[i] < 0) continue;
      const auto u = static_cast<std::size_t>(triangles[t].beside[i]);
      Winding winding = section.winding[t];
      if (const int e = triangles[t].edge[i]; e >= 0) {
        // Going anticlockwise round t, t lies left of its edges.
        const bool along = triangles[t].corner[(i + 1) % 3] == section.edges[static_cast<std::size_t>(e)][0];
        for (std::size_t k = 0; k < 2; ++k)
          winding[k] += (along ? -1 : 1) * section.turns[static_cast<std::size_t>(e)][k];
      }
      if (!known[u]) {
        known[u] = true;
        section.winding[u] = winding;
        todo.push_back(u);
      } else if (section.winding[u] != winding) {
        throw std::logic_error("mesh_of: an outline is not closed");
      }
    }
  }
}

/// The plan at height `level`: slab `level` - 1 below and slab `level` above.
Section section_at(const Plan& plan, std::size_t level) {
  std::map<std::array<std::uint32_t, 2>, Winding> turns;
  const auto gather = [&](std::size_t slab, std::size_t which) {
    for (const PlanEdge& edge : plan.slabs[slab]) turns[{edge.a, edge.b}][which] = edge.turns;
  };
  if (level > 0) gather(level - 1, 0);
  if (level < plan.slabs.size()) gather(level, 1);

  Section section;
  if (turns.empty()) return section;
  for (const auto& [edge, turn] : turns) section.points.insert(section.points.end(), {edge[0], edge[1]});
  std::sort(section.points.begin(), section.points.end());
  section.points.erase(std::unique(section.points.begin(), section.points.end()), section.points.end());
  const auto local = [&](std::uint32_t v) {
    return static_cast<std::uint32_t>(std::lower_bound(section.points.begin(), section.points.end(), v) -
                                      section.points.begin());
  };
  for (const auto& [edge, turn] : turns) {
    section.edges.push_back({local(edge[0]), local(edge[1])});
    section.turns.push_back(turn);
  }
  std::vector<GridPoint> points;
  for (const std::uint32_t v : section.points) points.push_back(plan.points[v]);
  section.triangulation = triangulate(points, section.edges);
  spread_winding(section);
  return section;
}

/// Collects triangles between points of the plan at levels.
class Surface {
 public:
  Surface(const Plan& plan, std::size_t levels) : plan_(plan), number_(plan.points.size() * levels, none) {}

  void faces(const Section& section, std::size_t level) {
    const auto& triangles = section.triangulation.triangles;
    for (std::size_t t = 0; t < triangles.size(); ++t) {
      const bool below = section.material(t, 0), above = section.material(t, 1);
      if (below == above) continue;
      auto [a, b, c] = triangles[t].corner;
      if (above) std::swap(b, c);  // seen from below
      triangles_.push_back({at(section, a, level), at(section, b, level), at(section, c, level)});
    }
  }

  /// Walls of the slab above `level`.
  void walls(const Section& section, std::size_t level) {
    const auto& triangles = section.triangulation.triangles;
    for (std::size_t t = 0; t < triangles.size(); ++t)
      for (std::size_t i = 0; i < 3; ++i) {
        if (triangles[t].edge[i] < 0 || !section.material(t, 1)) continue;
        if (section.material(static_cast<std::size_t>(triangles[t].beside[i]), 1)) continue;
        const std::uint32_t a = triangles[t].corner[(i + 1) % 3], b = triangles[t].corner[(i + 2) % 3];
        const std::uint32_t a0 = at(section, a, level), b0 = at(section, b, level);
        const std::uint32_t a1 = at(section, a, level + 1), b1 = at(section, b, level + 1);
        triangles_.push_back({a0, b0, b1});
        triangles_.push_back({a0, b1, a1});
      }
  }

  Mesh mesh(const Grid& grid, const Grid& upward, const std::vector<std::int64_t>& heights) && {
    Mesh mesh;
    for (const auto& [v, level] : vertices_)
      mesh.vertices.push_back({grid.mm(plan_.points[v].x), grid.mm(plan_.points[v].y), upward.mm(heights[level])});
    mesh.triangles = std::move(triangles_);
    return mesh;
  }

 private:
  static constexpr std::uint32_t none = ~std::uint32_t{0};

  std::uint32_t at(const Section& section, std::uint32_t local, std::size_t level) {
    const std::uint32_t v = section.points[local];
    std::uint32_t& number = number_[level * plan_.points.size() + v];
    if (number == none) {
      number = static_cast<std::uint32_t>(vertices_.size());
      vertices_.emplace_back(v, level);
    }
    return number;
  }

  const Plan& plan_;
  std::vector<std::uint32_t> number_;
  std::vector<std::pair<std::uint32_t, std::size_t>> vertices_;
  std::vector<std::array<std::uint32_t, 3>> triangles_;
};

Mesh mesh_on(const Grid& grid, const Solid& solid) {
  const Grid upward = height_grid(solid);
  std::vector<std::int64_t> heights{upward.steps(solid.slabs.front().bottom)};
  for (const Slab& slab : solid.slabs) {
    heights.push_back(upward.steps(slab.top));
    if (heights.back() == heights[heights.size() - 2]) throw std::logic_error("mesh_of: a slab is too thin");
  }
  const Plan plan = plan_of(edges_of(solid, grid), static_cast<int>(solid.slabs.size()));
  Surface surface(plan, heights.size());
  for (std::size_t level = 0; level < heights.size(); ++level) {
    const Section section = section_at(plan, level);
    if (section.points.empty()) continue;
    surface.faces(section, level);
    if (level < solid.slabs.size()) surface.walls(section, level);
  }
  Mesh mesh = std::move(surface).mesh(grid, upward, heights);
  part_at_touching_points(mesh);
  return mesh;
}

/// Outlines that run within a step of each other may come to touch where they should not when they are rounded: about
/// one random stack of crossing shapes in 3000. Then a coarser grid, which rounds otherwise, nearly always does. Parts
/// that truly touch do so on every grid.
constexpr int coarser_grids = 3;

}  // namespace

Mesh mesh_of(const Solid& solid) {
  check(solid);
  for (int coarser = 0; coarser < coarser_grids; ++coarser) {
    try {
      return mesh_on(plan_grid(solid, coarser), solid);
    } catch (const UnfitGrid&) {
    }
  }
  return mesh_on(plan_grid(solid, coarser_grids), solid);
}

}  // namespace fitwright
