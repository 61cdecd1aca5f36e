#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <set>
#include <stdexcept>

#include "mesh/arrangement.hpp"
#include "mesh/triangulation.hpp"

using namespace fitwright;

namespace {

/// Checks neighbours, orientation and area; gives the set of edges (ascending pairs).
std::set<std::pair<std::uint32_t, std::uint32_t>> checked_edges(const Triangulation& result,
                                                                const std::vector<GridPoint>& points) {
  std::set<std::pair<std::uint32_t, std::uint32_t>> edges;
  std::size_t bad = 0;
  for (std::size_t t = 0; t < result.triangles.size(); ++t)
    for (std::size_t i = 0; i < 3; ++i) {
      const auto& triangle = result.triangles[t];
      edges.insert(std::minmax(triangle.corner[i], triangle.corner[(i + 1) % 3]));
      if (triangle.beside[i] < 0) continue;
      const auto& other = result.triangles[static_cast<std::size_t>(triangle.beside[i])];
      const auto back = std::find(other.beside.begin(), other.beside.end(), static_cast<int>(t));
      if (back == other.beside.end() ||
          other.edge[static_cast<std::size_t>(back - other.beside.begin())] != triangle.edge[i])
        ++bad;
    }
  CHECK(bad == 0);
  for (const auto& triangle : result.triangles) {
    const auto [a, b, c] = triangle.corner;
    if (std::max({a, b, c}) < points.size() && turn(points[a], points[b], points[c]) <= 0) ++bad;
  }
  CHECK(bad == 0);
  CHECK(result.triangles.size() == 2 + 2 * points.size());  // four corners outside: Euler
  return edges;
}

/// Points strictly inside the circle through the corners of a triangle, among all.
std::size_t points_inside_circles(const Triangulation& result, const std::vector<GridPoint>& points) {
  std::size_t count = 0;
  for (const auto& triangle : result.triangles) {
    const auto [a, b, c] = triangle.corner;
    if (std::max({a, b, c}) >= points.size()) continue;
    for (const GridPoint& d : points) {
      const auto lift = [&](const GridPoint& p) {
        return static_cast<long double>((p.x - d.x) * (p.x - d.x) + (p.y - d.y) * (p.y - d.y));
      };
      const long double inside = lift(points[a]) * static_cast<long double>(turn(d, points[b], points[c])) +
                                 lift(points[b]) * static_cast<long double>(turn(d, points[c], points[a])) +
                                 lift(points[c]) * static_cast<long double>(turn(d, points[a], points[b]));
      if (inside > 0) ++count;
    }
  }
  return count;
}

std::vector<GridPoint> random_points(std::mt19937& raw, std::size_t count, std::uint32_t span) {
  std::set<GridPoint> points;
  while (points.size() < count) {
    const std::int64_t x = raw() % span, y = raw() % span;
    points.insert({x, y});
  }
  return {points.begin(), points.end()};
}

}  // namespace

TEST_CASE("points alone give a Delaunay triangulation", "[mesh]") {
  std::mt19937 raw(1);
  for (int run = 0; run < 30; ++run) {
    // Small spans put many points on lines and circles; large ones none. 2^20: long double holds the test exactly.
    const auto points = random_points(raw, 60, run % 2 == 0 ? 12 : 1U << 12);
    const Triangulation result = triangulate(points, {});
    checked_edges(result, points);
    CHECK(points_inside_circles(result, points) == 0);
  }
}

TEST_CASE("points in a row, and one point", "[mesh]") {
  checked_edges(triangulate({{5, 5}}, {}), {{5, 5}});
  std::vector<GridPoint> row;
  for (int i = 0; i < 50; ++i) row.push_back({i * 3, i * 2});
  const auto edges = checked_edges(triangulate(row, {}), row);
  for (std::uint32_t i = 0; i + 1 < row.size(); ++i) CHECK(edges.count({i, i + 1}) == 1);
  CHECK_THROWS_AS(triangulate({}, {}), std::logic_error);
  CHECK_THROWS_AS(triangulate({{1, 1}, {1, 1}}, {}), std::logic_error);
}

TEST_CASE("edges are forced in, however many others they cross", "[mesh]") {
  std::mt19937 raw(2);
  for (int run = 0; run < 60; ++run) {
    const std::uint32_t span = run % 3 == 0 ? 40 : 1U << 24;
    // Random long edges, cut at their crossings by the plan.
    std::vector<OutlineEdge> outline;
    for (int i = 0; i < 25; ++i) {
      const auto ends = random_points(raw, 2, span);
      outline.push_back({ends[0], ends[1], 0});
    }
    const Plan plan = plan_of(outline, 1);
    std::vector<std::array<std::uint32_t, 2>> edges;
    for (const PlanEdge& edge : plan.slabs[0]) edges.push_back({edge.a, edge.b});
    const Triangulation result = triangulate(plan.points, edges);
    const auto found = checked_edges(result, plan.points);
    std::size_t missing = 0;
    for (const auto& [a, b] : edges) missing += found.count({a, b}) == 0 ? 1U : 0U;
    CHECK(missing == 0);
  }
}

TEST_CASE("one long edge through a cloud of points", "[mesh]") {
  std::mt19937 raw(3);
  for (int run = 0; run < 20; ++run) {
    auto points = random_points(raw, 400, 1U << 20);
    std::erase_if(points, [](const GridPoint& p) { return p.y == 500000; });
    const auto a = static_cast<std::uint32_t>(points.size());
    points.push_back({-1000, 500000});
    points.push_back({(1 << 20) + 1000, 500000});
    const auto edges = checked_edges(triangulate(points, {{a, a + 1}}), points);
    CHECK(edges.count({a, a + 1}) == 1);
  }
}

TEST_CASE("crossing edges, and a point on an edge, are refused", "[mesh]") {
  const std::vector<GridPoint> square{{0, 0}, {10, 0}, {10, 10}, {0, 10}, {5, 5}};
  CHECK_THROWS_AS(triangulate({square.begin(), square.end() - 1}, {{0, 2}, {1, 3}}), std::logic_error);
  CHECK_THROWS_AS(triangulate(square, {{0, 2}}), std::logic_error);
}

TEST_CASE("the plan is cut so that no two edges cross", "[mesh]") {
  std::mt19937 raw(4);
  for (int run = 0; run < 20; ++run) {
    std::vector<OutlineEdge> outline;
    for (int i = 0; i < 30; ++i) {
      const auto ends = random_points(raw, 2, run % 2 == 0 ? 50 : 1U << 24);
      outline.push_back({ends[0], ends[1], i % 3});
    }
    const Plan plan = plan_of(outline, 3);
    std::set<std::pair<std::uint32_t, std::uint32_t>> unique;
    for (const auto& slab : plan.slabs)
      for (const PlanEdge& edge : slab) unique.emplace(edge.a, edge.b);
    std::size_t crossings = 0;
    for (auto e = unique.begin(); e != unique.end(); ++e)
      for (auto f = std::next(e); f != unique.end(); ++f) {
        const auto &p = plan.points[e->first], &q = plan.points[e->second];
        const auto &r = plan.points[f->first], &s = plan.points[f->second];
        const auto sign = [](std::int64_t v) { return (v > 0) - (v < 0); };
        const int rs = sign(turn(p, q, r)) * sign(turn(p, q, s)), pq = sign(turn(r, s, p)) * sign(turn(r, s, q));
        const bool shared =
            e->first == f->first || e->first == f->second || e->second == f->first || e->second == f->second;
        // Apart, or touching at a common end; edges in a line may not overlap, which shows as a point inside an edge.
        if (rs < 0 && pq < 0) ++crossings;
        if (!shared && rs <= 0 && pq <= 0 && (rs != 0 || pq != 0)) ++crossings;
      }
    CHECK(crossings == 0);
    std::size_t inside = 0;
    for (const auto& [a, b] : unique)
      for (const GridPoint& v : plan.points)
        if (plan.points[a] < v && v < plan.points[b] && turn(plan.points[a], plan.points[b], v) == 0) ++inside;
    CHECK(inside == 0);
  }
}
