#include "mesh/arrangement.hpp"

#include <algorithm>
#include <cstdlib>
#include <stdexcept>
#include <tuple>
#include <utility>

namespace fitwright {
namespace {

/// Rounds of cutting seen on real designs: 2 or 3. Far more mean a defect here.
constexpr int most_rounds = 100;

/// An edge of one slab with its end points in ascending order.
struct Run {
  GridPoint a, b;
  int slab = 0;
  int turns = 0;

  [[nodiscard]] auto key() const { return std::tie(a, b, slab); }
};

/// Sorts, adds up what lies on the same two points, drops what cancels.
void tidy(std::vector<Run>& runs) {
  for (Run& run : runs)
    if (run.b < run.a) {
      std::swap(run.a, run.b);
      run.turns = -run.turns;
    }
  std::sort(runs.begin(), runs.end(), [](const Run& x, const Run& y) { return x.key() < y.key(); });
  std::vector<Run> kept;
  for (const Run& run : runs) {
    if (run.a == run.b) continue;
    if (!kept.empty() && kept.back().key() == run.key())
      kept.back().turns += run.turns;
    else
      kept.push_back(run);
  }
  std::erase_if(kept, [](const Run& run) { return run.turns == 0; });
  runs = std::move(kept);
}

using Edge = std::pair<GridPoint, GridPoint>;  // ascending

/// p on the line of e: strictly between its ends?
bool within(const Edge& e, const GridPoint& p) {
  // Ascending order along a line is the order of the points along it.
  return e.first < p && p < e.second;
}

int sign(std::int64_t value) { return (value > 0) - (value < 0); }

__extension__ using Wide = __int128;

std::int64_t rounded_quotient(Wide numerator, Wide denominator) {  // denominator > 0
  Wide twice = 2 * numerator + denominator;
  const Wide by = 2 * denominator;
  Wide quotient = twice / by;
  if (twice % by != 0 && twice < 0) --quotient;  // towards minus infinity
  return static_cast<std::int64_t>(quotient);
}

/// Where e crosses the line of f, given on which sides of it (and how far) e's ends lie; to the nearest grid point.
GridPoint crossing(const Edge& e, std::int64_t first_side, std::int64_t second_side) {
  Wide along = first_side, whole = static_cast<Wide>(first_side) - second_side;
  if (whole < 0) along = -along, whole = -whole;
  return {e.first.x + rounded_quotient(along * (e.second.x - e.first.x), whole),
          e.first.y + rounded_quotient(along * (e.second.y - e.first.y), whole)};
}

/// Near enough to an end point to take that instead of a new point beside it: nearly parallel edges would else be cut
/// step by step all along.
bool beside(const GridPoint& p, const GridPoint& end) {
  return std::abs(p.x - end.x) <= 1 && std::abs(p.y - end.y) <= 1;
}

using Cut = std::pair<std::size_t, GridPoint>;  // edge, where

void cut_pair(const std::vector<Edge>& edges, std::size_t i, std::size_t k, std::vector<Cut>& cuts) {
  const Edge &e = edges[i], &f = edges[k];
  const std::int64_t f0 = turn(e.first, e.second, f.first), f1 = turn(e.first, e.second, f.second);
  if (sign(f0) * sign(f1) > 0) return;
  const std::int64_t e0 = turn(f.first, f.second, e.first), e1 = turn(f.first, f.second, e.second);
  if (sign(e0) * sign(e1) > 0) return;
  if (f0 == 0 && within(e, f.first)) cuts.emplace_back(i, f.first);
  if (f1 == 0 && within(e, f.second)) cuts.emplace_back(i, f.second);
  if (e0 == 0 && within(f, e.first)) cuts.emplace_back(k, e.first);
  if (e1 == 0 && within(f, e.second)) cuts.emplace_back(k, e.second);
  if (sign(f0) * sign(f1) < 0 && sign(e0) * sign(e1) < 0) {
    GridPoint p = crossing(e, e0, e1);
    for (const GridPoint& end : {e.first, e.second, f.first, f.second})
      if (beside(p, end)) {
        p = end;
        break;
      }
    if (p != e.first && p != e.second) cuts.emplace_back(i, p);
    if (p != f.first && p != f.second) cuts.emplace_back(k, p);
  }
}

/// All cuts needed, by a sweep along x over the edges whose spans overlap.
std::vector<Cut> find_cuts(const std::vector<Edge>& edges) {
  std::vector<Cut> cuts;
  std::vector<std::size_t> open;
  for (std::size_t i = 0; i < edges.size(); ++i) {
    const auto [low, high] = std::minmax(edges[i].first.y, edges[i].second.y);
    std::erase_if(open, [&](std::size_t k) { return edges[k].second.x < edges[i].first.x; });
    for (const std::size_t k : open) {
      const auto [other_low, other_high] = std::minmax(edges[k].first.y, edges[k].second.y);
      if (other_low <= high && low <= other_high) cut_pair(edges, i, k, cuts);
    }
    open.push_back(i);
  }
  // In the order along each edge.
  std::sort(cuts.begin(), cuts.end(), [&](const Cut& x, const Cut& y) {
    if (x.first != y.first) return x.first < y.first;
    const Edge& e = edges[x.first];
    const auto along = [&](const GridPoint& p) {
      return (p.x - e.first.x) * (e.second.x - e.first.x) + (p.y - e.first.y) * (e.second.y - e.first.y);
    };
    return std::tuple(along(x.second), x.second) < std::tuple(along(y.second), y.second);
  });
  cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());
  return cuts;
}

/// One round; false when there was nothing to cut.
bool cut_round(std::vector<Run>& runs) {
  std::vector<Edge> edges;
  for (const Run& run : runs)
    if (edges.empty() || edges.back() != Edge{run.a, run.b}) edges.emplace_back(run.a, run.b);
  const std::vector<Cut> cuts = find_cuts(edges);
  if (cuts.empty()) return false;
  std::vector<Run> pieces;
  std::size_t edge = 0;
  auto cut = cuts.begin();
  for (const Run& run : runs) {
    while (edges[edge] != Edge{run.a, run.b}) ++edge;
    while (cut != cuts.end() && cut->first < edge) ++cut;
    GridPoint from = run.a;
    for (auto c = cut; c != cuts.end() && c->first == edge; ++c) {
      pieces.push_back({from, c->second, run.slab, run.turns});
      from = c->second;
    }
    pieces.push_back({from, run.b, run.slab, run.turns});
  }
  runs = std::move(pieces);
  tidy(runs);
  return true;
}

}  // namespace

Plan plan_of(const std::vector<OutlineEdge>& edges, int slab_count) {
  std::vector<Run> runs;
  runs.reserve(edges.size());
  for (const OutlineEdge& edge : edges) runs.push_back({edge.from, edge.to, edge.slab, 1});
  tidy(runs);
  int rounds = 0;
  while (cut_round(runs))
    if (++rounds > most_rounds) throw UnfitGrid("mesh_of: the outlines could not be cut at their crossings");

  Plan plan;
  for (const Run& run : runs) {
    plan.points.push_back(run.a);
    plan.points.push_back(run.b);
  }
  std::sort(plan.points.begin(), plan.points.end());
  plan.points.erase(std::unique(plan.points.begin(), plan.points.end()), plan.points.end());
  const auto index = [&](const GridPoint& p) {
    return static_cast<std::uint32_t>(std::lower_bound(plan.points.begin(), plan.points.end(), p) -
                                      plan.points.begin());
  };
  plan.slabs.resize(static_cast<std::size_t>(slab_count));
  for (const Run& run : runs)
    plan.slabs[static_cast<std::size_t>(run.slab)].push_back({index(run.a), index(run.b), run.turns});
  return plan;
}

}  // namespace fitwright
