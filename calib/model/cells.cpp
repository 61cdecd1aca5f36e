#include "model/cells.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>
#include <tuple>

namespace fitwright {
namespace {

MachinePlace machine_place(const Reading& r) {
  MachinePlace p;
  p.kind = machine_kind(r);
  p.axis = machine_axis(r);
  p.nominal_mm = r.feature.nominal_mm;
  p.facets = r.feature.facets;
  p.step_mm = r.step_mm;
  if (is_diagonal(p.kind)) {
    // Without sides the rectangle is a square; point to point, its diagonal is then the nominal.
    const double side = r.feature.nominal_mm / std::numbers::sqrt2;
    p.side_a_mm = r.feature.side_a_mm.value_or(r.feature.side_b_mm.value_or(side));
    p.side_b_mm = r.feature.side_b_mm.value_or(p.side_a_mm);
    if (r.turned_deg == 90 || r.turned_deg == 270) std::swap(p.side_a_mm, p.side_b_mm);
  }
  return p;
}

/// What makes two places on different copies the same one in the machine's eyes.
auto match_key(const PlaceCell& c) { return std::tuple(c.place.axis, c.place.kind, c.place.nominal_mm); }

}  // namespace

std::vector<PlaceCell> cells_of(const ReadingSet& set, const std::vector<bool>& counts) {
  std::vector<PlaceCell> cells;
  std::map<std::pair<std::string, int>, std::size_t> where;
  for (std::size_t i = 0; i < set.rows.size(); ++i) {
    const Reading& r = set.rows[i];
    if (is_steel(r.feature.kind) || (i < counts.size() && !counts[i])) continue;
    const auto [at, fresh] = where.try_emplace({r.feature.id, r.copy}, cells.size());
    if (fresh) {
      PlaceCell cell;
      cell.place = machine_place(r);
      cell.feature = r.feature;
      cell.copy = r.copy;
      cell.turned_deg = r.turned_deg;
      cell.effect_key = r.feature.id + '|' + std::to_string(r.turned_deg);
      cells.push_back(std::move(cell));
    }
    cells[at->second].rows.push_back(i);
  }
  for (PlaceCell& cell : cells) {
    double sum = 0;
    for (std::size_t i : cell.rows) sum += set.rows[i].reading_mm;
    cell.mean_mm = sum / static_cast<double>(cell.rows.size());
  }
  return cells;
}

MatchedTable match(const std::vector<PlaceCell>& cells) {
  MatchedTable table;
  std::set<int> copies, lays;
  for (const PlaceCell& c : cells) {
    copies.insert(c.copy);
    lays.insert(c.turned_deg);
  }
  table.one_way_to_lie = lays.size() <= 1 || lays.size() == copies.size();
  table.copies.assign(copies.begin(), copies.end());
  std::map<int, std::size_t> column;
  for (std::size_t c = 0; c < table.copies.size(); ++c) column[table.copies[c]] = c;

  // Per key and copy, the cells in order of their engraved name: the k-th of one copy meets the k-th of the next.
  std::map<std::pair<decltype(match_key(cells[0])), int>, std::vector<std::size_t>> groups;
  for (std::size_t i = 0; i < cells.size(); ++i) groups[{match_key(cells[i]), cells[i].copy}].push_back(i);
  std::vector<std::size_t> rank(cells.size());
  for (auto& [key, members] : groups) {
    std::sort(members.begin(), members.end(),
              [&](std::size_t a, std::size_t b) { return cells[a].feature.id < cells[b].feature.id; });
    for (std::size_t k = 0; k < members.size(); ++k) rank[members[k]] = k;
  }

  std::map<std::pair<decltype(match_key(cells[0])), std::size_t>, std::size_t> row_of;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const auto [at, fresh] = row_of.try_emplace({match_key(cells[i]), rank[i]}, table.features.size());
    if (fresh) table.features.push_back({std::vector<std::size_t>(table.copies.size(), npos_cell)});
    table.features[at->second].cells[column[cells[i].copy]] = i;
  }
  for (const MatchedFeature& f : table.features)
    table.complete = table.complete && std::find(f.cells.begin(), f.cells.end(), npos_cell) == f.cells.end();
  return table;
}

}  // namespace fitwright
