#include "mesh/triangulation.hpp"

#include <algorithm>
#include <cstddef>
#include <deque>
#include <stdexcept>
#include <utility>

namespace fitwright {
namespace {

__extension__ using Wide = __int128;

/// > 0 when d lies inside the circle through a, b, c (anticlockwise). Exact: below 2^120 for points within 2^27.
Wide in_circle(const GridPoint& a, const GridPoint& b, const GridPoint& c, const GridPoint& d) {
  const auto lift = [&](const GridPoint& p) {
    const std::int64_t x = p.x - d.x, y = p.y - d.y;
    return static_cast<Wide>(x * x + y * y);
  };
  return lift(a) * turn(d, b, c) + lift(b) * turn(d, c, a) + lift(c) * turn(d, a, b);
}

/// Position along a Z-shaped walk through the plan: neighbours in it are mostly neighbours in the plan.
std::uint64_t z_order(const GridPoint& p, const GridPoint& low) {
  const auto spread = [](std::uint64_t v) {
    v = (v | v << 16) & 0x0000FFFF0000FFFFU;
    v = (v | v << 8) & 0x00FF00FF00FF00FFU;
    v = (v | v << 4) & 0x0F0F0F0F0F0F0F0FU;
    v = (v | v << 2) & 0x3333333333333333U;
    return (v | v << 1) & 0x5555555555555555U;
  };
  return spread(static_cast<std::uint64_t>(p.x - low.x)) | spread(static_cast<std::uint64_t>(p.y - low.y)) << 1;
}

constexpr std::size_t next(std::size_t i) { return i == 2 ? 0 : i + 1; }
constexpr std::size_t prev(std::size_t i) { return i == 0 ? 2 : i - 1; }

class Builder {
 public:
  explicit Builder(const std::vector<GridPoint>& points) : points_(points) {
    if (points.empty()) throw std::logic_error("triangulate: no points");
    GridPoint low = points.front(), high = low;
    for (const GridPoint& p : points) {
      low = {std::min(low.x, p.x), std::min(low.y, p.y)};
      high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
    const auto n = static_cast<std::uint32_t>(points.size());
    const std::int64_t margin = std::max(high.x - low.x, high.y - low.y) + 1;
    points_.push_back({low.x - margin, low.y - margin});
    points_.push_back({high.x + margin, low.y - margin});
    points_.push_back({high.x + margin, high.y + margin});
    points_.push_back({low.x - margin, high.y + margin});
    at_.assign(points_.size(), 0);
    out_.first_box_corner = n;
    out_.triangles.resize(2);
    put(0, {n, n + 1, n + 2}, {-1, 1, -1}, {-1, -1, -1});
    put(1, {n, n + 2, n + 3}, {-1, -1, 0}, {-1, -1, -1});

    std::vector<std::pair<std::uint64_t, std::uint32_t>> order;
    for (std::uint32_t i = 0; i < n; ++i) order.emplace_back(z_order(points[i], low), i);
    std::sort(order.begin(), order.end());
    for (const auto& [z, i] : order) insert(i);
  }

  void force(std::uint32_t a, std::uint32_t b, int id) {
    if (!mark(a, b, id)) {
      std::deque<Pair> crossing = crossed_by(a, b);
      // A flip either clears a crossing or moves it to the end of the queue; n2 of them are never near.
      std::size_t left = 100 + crossing.size() * crossing.size();
      while (!crossing.empty()) {
        if (--left == 0) throw std::logic_error("triangulate: an edge could not be placed");
        const auto [p, q] = crossing.front();
        crossing.pop_front();
        const auto [t, i] = find(p, q);
        const std::uint32_t apex = tri(t).corner[i], other = across(t, i);
        if (tri(t).edge[i] >= 0) throw std::logic_error("triangulate: two edges cross");
        if (!convex(t, i)) {
          crossing.emplace_back(p, q);
          continue;
        }
        flip(t, i);
        if (apex != a && apex != b && other != a && other != b && (side(a, b, apex) > 0) != (side(a, b, other) > 0))
          crossing.emplace_back(apex, other);
      }
      if (!mark(a, b, id)) throw std::logic_error("triangulate: an edge could not be placed");
    }
  }

  /// Lawson's flips over all edges that are free to flip.
  void make_delaunay() {
    for (std::size_t t = 0; t < out_.triangles.size(); ++t)
      for (std::size_t i = 0; i < 3; ++i) doubtful_.emplace_back(static_cast<int>(t), i);
    settle();
  }

  Triangulation take() { return std::move(out_); }

 private:
  using Triangle = Triangulation::Triangle;
  using Pair = std::pair<std::uint32_t, std::uint32_t>;
  using Where = std::pair<int, std::size_t>;  // triangle, and the corner opposite the edge meant

  Triangle& tri(int t) { return out_.triangles[static_cast<std::size_t>(t)]; }
  const GridPoint& point(std::uint32_t v) const { return points_[v]; }
  std::int64_t side(std::uint32_t a, std::uint32_t b, std::uint32_t c) const {
    return turn(point(a), point(b), point(c));
  }

  void put(int t, std::array<std::uint32_t, 3> corner, std::array<int, 3> beside, std::array<int, 3> edge) {
    tri(t) = {corner, beside, edge};
    for (const std::uint32_t v : corner) at_[v] = t;
  }

  /// Tells triangle `t` that its neighbour `was` is now `is`.
  void relink(int t, int was, int is) {
    if (t < 0) return;
    for (int& n : tri(t).beside)
      if (n == was) {
        n = is;
        return;
      }
  }

  /// Corner of t's neighbour opposite the edge they share.
  std::size_t corner_across(int t, std::size_t i) {
    const Triangle& u = tri(tri(t).beside[i]);
    return u.beside[0] == t ? 0 : u.beside[1] == t ? 1 : 2;
  }
  std::uint32_t across(int t, std::size_t i) { return tri(tri(t).beside[i]).corner[corner_across(t, i)]; }

  bool convex(int t, std::size_t i) {
    const Triangle& a = tri(t);
    const std::uint32_t d = across(t, i);
    return side(a.corner[i], a.corner[next(i)], d) > 0 && side(a.corner[i], d, a.corner[prev(i)]) > 0;
  }

  /// Turns the edge opposite corner i of t into the other diagonal. t and its neighbour keep their numbers; the corner
  /// i of t comes to stand first in both.
  void flip(int t, std::size_t i) {
    const Triangle a = tri(t);
    const int other = a.beside[i];
    const std::size_t j = corner_across(t, i);
    const Triangle u = tri(other);
    const std::uint32_t p = a.corner[i], b = a.corner[next(i)], c = a.corner[prev(i)], d = u.corner[j];
    // u is (d, c, b): opposite c lies the edge b-d, opposite b the edge d-c.
    const std::size_t uc = next(j), ub = prev(j);
    put(t, {p, b, d}, {u.beside[uc], other, a.beside[prev(i)]}, {u.edge[uc], -1, a.edge[prev(i)]});
    put(other, {p, d, c}, {u.beside[ub], a.beside[next(i)], t}, {u.edge[ub], a.edge[next(i)], -1});
    relink(u.beside[uc], other, t);
    relink(a.beside[next(i)], t, other);
  }

  void settle() {
    while (!doubtful_.empty()) {
      const auto [t, i] = doubtful_.back();
      doubtful_.pop_back();
      const Triangle& a = tri(t);
      if (a.beside[i] < 0 || a.edge[i] >= 0) continue;
      if (in_circle(point(a.corner[0]), point(a.corner[1]), point(a.corner[2]), point(across(t, i))) <= 0) continue;
      const int other = a.beside[i];
      flip(t, i);
      doubtful_.emplace_back(t, 0);
      doubtful_.emplace_back(other, 0);
      doubtful_.emplace_back(t, 2);
      doubtful_.emplace_back(other, 1);
    }
  }

  int locate(const GridPoint& p) {
    int t = last_;
    for (bool moved = true; moved;) {
      moved = false;
      for (std::size_t i = 0; i < 3 && !moved; ++i) {
        const Triangle& a = tri(t);
        if (turn(point(a.corner[next(i)]), point(a.corner[prev(i)]), p) < 0) {
          t = a.beside[i];
          moved = true;
        }
      }
    }
    return t;
  }

  int add() {
    out_.triangles.emplace_back();
    return static_cast<int>(out_.triangles.size()) - 1;
  }

  void insert(std::uint32_t p) {
    const int t = locate(point(p));
    const Triangle a = tri(t);
    std::size_t on = 3;
    int zeros = 0;
    for (std::size_t i = 0; i < 3; ++i)
      if (turn(point(a.corner[next(i)]), point(a.corner[prev(i)]), point(p)) == 0) on = i, ++zeros;
    if (zeros > 1) throw std::logic_error("triangulate: two points are equal");
    if (zeros == 1)
      split_edge(t, on, p);
    else
      split_triangle(t, p);
    last_ = at_[p];
    settle();
  }

  void split_triangle(int t, std::uint32_t p) {
    const Triangle s = tri(t);
    const auto [a, b, c] = s.corner;
    const auto [na, nb, nc] = s.beside;
    const int t1 = add(), t2 = add();
    put(t, {p, b, c}, {na, t1, t2}, {-1, -1, -1});
    put(t1, {p, c, a}, {nb, t2, t}, {-1, -1, -1});
    put(t2, {p, a, b}, {nc, t, t1}, {-1, -1, -1});
    relink(nb, t, t1);
    relink(nc, t, t2);
    for (const int n : {t, t1, t2}) doubtful_.emplace_back(n, 0);
  }

  /// p lies on the edge opposite corner i of t.
  void split_edge(int t, std::size_t i, std::uint32_t p) {
    const Triangle s = tri(t);
    const int u = s.beside[i];
    const std::size_t j = corner_across(t, i);
    const Triangle o = tri(u);
    const std::uint32_t a = s.corner[i], b = s.corner[next(i)], c = s.corner[prev(i)], d = o.corner[j];
    const int nb = s.beside[next(i)], nc = s.beside[prev(i)];  // across c-a, a-b
    const int mc = o.beside[next(j)], mb = o.beside[prev(j)];  // across b-d, d-c
    const int t1 = add(), u1 = add();
    put(t, {p, a, b}, {nc, u1, t1}, {-1, -1, -1});
    put(t1, {p, c, a}, {nb, t, u}, {-1, -1, -1});
    put(u, {p, d, c}, {mb, t1, u1}, {-1, -1, -1});
    put(u1, {p, b, d}, {mc, u, t}, {-1, -1, -1});
    relink(nb, t, t1);
    relink(mc, u, u1);
    for (const int n : {t, t1, u, u1}) doubtful_.emplace_back(n, 0);
  }

  /// Calls `see(t, i)` for each triangle t around v, v being its corner i, until it returns true.
  template <class See>
  bool around(std::uint32_t v, See see) {
    const int start = at_[v];
    int t = start;
    do {
      const Triangle& a = tri(t);
      const std::size_t i = a.corner[0] == v ? 0 : a.corner[1] == v ? 1 : 2;
      if (see(t, i)) return true;
      t = a.beside[next(i)];
    } while (t >= 0 && t != start);
    return false;
  }

  /// The triangle with the edge from p to q, named by the corner opposite. The edge must be there.
  Where find(std::uint32_t p, std::uint32_t q) {
    Where found{-1, 0};
    const auto see = [&](int t, std::size_t i) {
      const Triangle& a = tri(t);
      if (a.corner[next(i)] == q) found = {t, prev(i)};
      if (a.corner[prev(i)] == q) found = {t, next(i)};
      return found.first >= 0;
    };
    // A corner of the box is not surrounded by triangles; the other end of the edge may be.
    if (p >= out_.first_box_corner) std::swap(p, q);
    around(p, see);
    return found;
  }

  /// Marks the edge a-b on both sides if it is there.
  bool mark(std::uint32_t a, std::uint32_t b, int id) {
    const auto [t, i] = find(a, b);
    if (t < 0) return false;
    const std::size_t j = corner_across(t, i);
    tri(t).edge[i] = id;
    tri(tri(t).beside[i]).edge[j] = id;
    return true;
  }

  /// The edges that the segment from a to b crosses, from a on.
  std::deque<Pair> crossed_by(std::uint32_t a, std::uint32_t b) {
    std::deque<Pair> crossed;
    Where here{-1, 0};
    around(a, [&](int t, std::size_t i) {
      const Triangle& s = tri(t);
      if (side(a, s.corner[next(i)], b) > 0 && side(a, s.corner[prev(i)], b) < 0) here = {t, i};
      return here.first >= 0;
    });
    if (here.first < 0) throw std::logic_error("triangulate: a point lies on an edge");
    for (;;) {
      const auto [t, i] = here;
      const std::uint32_t right = tri(t).corner[next(i)], left = tri(t).corner[prev(i)];
      crossed.emplace_back(right, left);
      const int u = tri(t).beside[i];
      const std::size_t j = corner_across(t, i);
      const std::uint32_t d = tri(u).corner[j];
      if (d == b) return crossed;
      const std::int64_t where = side(a, b, d);
      if (where == 0) throw std::logic_error("triangulate: a point lies on an edge");
      // u is (d, left, right): leave through d-left when d is right of the segment, else through right-d.
      here = {u, where < 0 ? prev(j) : next(j)};
    }
  }

  std::vector<GridPoint> points_;
  std::vector<int> at_;  // a triangle at each point
  std::vector<Where> doubtful_;
  int last_ = 0;
  Triangulation out_;
};

}  // namespace

Triangulation triangulate(const std::vector<GridPoint>& points,
                          const std::vector<std::array<std::uint32_t, 2>>& edges) {
  Builder builder(points);
  for (std::size_t k = 0; k < edges.size(); ++k) builder.force(edges[k][0], edges[k][1], static_cast<int>(k));
  builder.make_delaunay();
  return builder.take();
}

}  // namespace fitwright
