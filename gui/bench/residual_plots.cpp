#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "base/words.hpp"
#include "bench/plot_parts.hpp"
#include "bench/plots.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

constexpr double pad_share = 0.06;
constexpr int decimals = 2;         // what a caliper shows
constexpr double normal_95 = 1.96;  // half-width of 95 % of a normal distribution, in standard deviations

/// What every kind and colour of the marks means: colours first, with a plain disc, then shapes in grey.
std::vector<Key> keys_of(const std::vector<const Cell*>& cells, bool shapes) {
  std::vector<Key> keys;
  const auto any = [&](const auto& test) { return std::any_of(cells.begin(), cells.end(), test); };
  for (const Axis axis : {Axis::x, Axis::y, Axis::z})
    if (any([&](const Cell* c) { return ink_of(c->kind, c->axis) == ink_of(axis); }))
      keys.push_back({Shape::disc, std::string(spoken(axis)), ink_of(axis)});
  for (const auto& [ink, text] : {std::pair{Ink::hole, noted("holes")}, {Ink::peg, noted("pegs")}})
    if (any([i = ink](const Cell* c) { return ink_of(c->kind, c->axis) == i; }))
      keys.push_back({Shape::disc, tr(text), ink});
  if (!shapes) return keys;
  for (const auto& [kind, text] : {std::pair{Kind::outer, noted("outer")},
                                   {Kind::inner, noted("slot")},
                                   {Kind::pitch, noted("pitch")},
                                   {Kind::pin, noted("pin hole")}})
    if (any([k = kind](const Cell* c) { return c->kind == k; })) keys.push_back({shape_of(kind), tr(text)});
  return keys;
}

/// Places of printed features with readings, as the model sees them.
std::vector<const Cell*> printed(const Estimates& estimates) {
  std::vector<const Cell*> cells;
  for (const Cell& cell : estimates.cells)
    if (cell.kind != Kind::zero && cell.kind != Kind::gauge && cell.kind != Kind::ring && !cell.rows.empty())
      cells.push_back(&cell);
  return cells;
}

std::string head() { return tr("Read minus fitted, mm"); }
std::string nothing() {
  return tr("How far each reading lies from what fits all of them appears here, once some are read.");
}

enum class Doubt { none, counts, set_aside };

PlotMark reading_mark(const Analysis& a, const Cell& cell, std::size_t row, Doubt doubt) {
  const Reading& r = a.read.rows[row];
  PlotMark mark;
  mark.at = {static_cast<double>(row + 1), r.reading_mm - cell.fitted_mm};
  mark.ink = doubt != Doubt::none ? Ink::warn : ink_of(cell.kind, cell.axis);
  mark.shape = doubt != Doubt::none ? Shape::cross : shape_of(cell.kind);
  const std::string read = shown(r.reading_mm, decimals);
  const std::string off = shown_signed(mark.at.y, decimals);
  const std::string time = ordinal(r.repeat);
  switch (doubt) {
    case Doubt::none:
      mark.said = said("{}, copy {}, {} reading: {}, {} mm from what fits", r.feature.id, r.copy, time, read, off);
      break;
    case Doubt::counts:
      mark.said =
          said("{}, copy {}, {} reading: {}, {} mm from what fits, doubtful", r.feature.id, r.copy, time, read, off);
      break;
    case Doubt::set_aside:
      mark.said =
          said("{}, copy {}, {} reading: {}, {} mm from what fits, set aside", r.feature.id, r.copy, time, read, off);
      break;
  }
  mark.rows = {a.row_of.at(row)};
  return mark;
}

/// Half of the range in which 95 % of single readings of lengths are expected, from the scatters that were found: of
/// the reading, of the place, and of the copy at the middle one of the lengths. Empty where they were not found.
std::optional<double> usual_half(const Estimates& e) {
  const auto scatter = [&](const char* of) {
    const auto found = e.scatter.find(of);
    return found == e.scatter.end() || !std::isfinite(found->second) ? 0.0 : found->second;
  };
  std::vector<double> lengths;
  for (const Cell& cell : e.cells)
    if (cell.kind == Kind::outer || cell.kind == Kind::inner) lengths.push_back(cell.feature.nominal_mm);
  if (lengths.empty() || scatter("reading_mm") <= 0) return std::nullopt;
  const auto middle = lengths.begin() + static_cast<std::ptrdiff_t>(lengths.size() / 2);
  std::nth_element(lengths.begin(), middle, lengths.end());
  constexpr double edges = 2;  // of a length
  return normal_95 * std::hypot(std::hypot(scatter("reading_mm"), scatter("feature_mm")),
                                std::hypot(edges * scatter("copy_edge_mm"), *middle * scatter("copy_scale")));
}

}  // namespace

PlotScene order_plot(const Analysis& a) {
  PlotScene scene;
  scene.title = head();
  scene.empty = nothing();
  scene.said = scene.empty;
  if (!a.estimates) return scene;
  const std::vector<const Cell*> cells = printed(*a.estimates);
  if (cells.empty()) return scene;
  const auto suspect_at = [&](std::size_t row) {
    const auto& all = a.estimates->suspects;
    const auto s = std::find_if(all.begin(), all.end(), [&](const auto& x) { return x.suspect.index == row; });
    return s == all.end() ? nullptr : &*s;
  };
  Range x, y;
  y.show(0);
  double farthest = 0;
  std::string farthest_said;
  std::map<PlaceKey, const Cell*> by_place;
  for (const Cell* cell : cells) {
    by_place.emplace(place_of(a.read.rows[cell->rows.front()]), cell);
    for (const std::size_t row : cell->rows) {
      const SuspectReading* s = suspect_at(row);
      scene.marks.push_back(reading_mark(a, *cell, row, s ? Doubt::counts : Doubt::none));
      const PlotMark& mark = scene.marks.back();
      x.show(mark.at.x);
      y.show(mark.at.y);
      if (std::abs(mark.at.y) > farthest) {
        farthest = std::abs(mark.at.y);
        farthest_said = mark.said;
      }
    }
  }
  const std::size_t counted_marks = scene.marks.size();
  for (const SuspectReading& s : a.estimates->suspects) {
    const Reading& r = a.read.rows[s.suspect.index];
    const auto cell = by_place.find(place_of(r));
    if (s.used || cell == by_place.end()) continue;
    scene.marks.push_back(reading_mark(a, *cell->second, s.suspect.index, Doubt::set_aside));
    x.show(scene.marks.back().at.x);
  }
  std::stable_sort(scene.marks.begin(), scene.marks.end(),
                   [](const PlotMark& p, const PlotMark& q) { return p.at.x < q.at.x; });
  scene.x = x.axis(pad_share / 2, 6, false, tr("as typed"));
  std::erase_if(scene.x.ticks, [](const Tick& t) { return t.at < 1 || t.at != std::floor(t.at); });
  if (const auto half = usual_half(*a.estimates)) {
    scene.bands.push_back(
        {{{scene.x.from, *half}, {scene.x.to, *half}}, {{scene.x.from, -*half}, {scene.x.to, -*half}}, Ink::quiet});
    y.show(*half);
    y.show(-*half);
    scene.labels.push_back({{scene.x.to, *half}, tr("95 %"), Ink::quiet});
  }
  scene.y = y.axis(pad_share, 6, true, "");
  scene.keys = keys_of(cells, true);
  if (std::any_of(scene.marks.begin(), scene.marks.end(), [](const auto& m) { return m.shape == Shape::cross; }))
    scene.keys.push_back({Shape::cross, tr("doubtful"), Ink::warn});
  scene.empty.clear();
  scene.said = said_many("Read minus fitted in the order typed, {} reading.",
                         "Read minus fitted in the order typed, {} readings.", counted_marks) +
               " " + said("Farthest: {}.", farthest_said);
  return scene;
}

PlotScene features_plot(const Analysis& a) {
  PlotScene scene;
  scene.title = head();
  scene.empty = nothing();
  scene.said = scene.empty;
  if (!a.estimates) return scene;
  std::vector<const Cell*> cells = printed(*a.estimates);
  if (cells.empty()) return scene;
  const auto order = [](const Cell* c) {
    return std::tuple(c->feature.kind, c->feature.axis, c->feature.nominal_mm, c->feature.id, c->copy);
  };
  std::stable_sort(cells.begin(), cells.end(), [&](const Cell* p, const Cell* q) { return order(p) < order(q); });

  constexpr std::array<Shape, 4> by_copy{Shape::disc, Shape::square, Shape::diamond, Shape::triangle};
  std::vector<int> copies;
  for (const Cell* cell : cells)
    if (std::find(copies.begin(), copies.end(), cell->copy) == copies.end()) copies.push_back(cell->copy);
  std::sort(copies.begin(), copies.end());
  const auto nth = [&](int copy) {
    return static_cast<std::size_t>(std::find(copies.begin(), copies.end(), copy) - copies.begin());
  };
  Range y;
  y.show(0);
  std::vector<std::string> ids;
  std::vector<std::pair<double, int>> sums;
  constexpr double shift = 0.7;  // mark widths from copy to copy
  for (const Cell* cell : cells) {
    if (ids.empty() || ids.back() != cell->feature.id) {
      ids.push_back(cell->feature.id);
      sums.emplace_back(0, 0);
    }
    PlotMark mark = place_mark(a, *cell, ink_of(cell->kind, cell->axis), by_copy[nth(cell->copy) % by_copy.size()]);
    mark.at = {static_cast<double>(ids.size()), cell->residual_mm};
    mark.aside = shift * (static_cast<double>(nth(cell->copy)) - static_cast<double>(copies.size() - 1) / 2);
    mark.said = said("{}, copy {}: {}, {} mm from what fits", cell->feature.id, cell->copy,
                     shown(cell->mean_mm, decimals), shown_signed(cell->residual_mm, decimals));
    y.show(cell->residual_mm);
    sums.back().first += cell->residual_mm;
    ++sums.back().second;
    scene.marks.push_back(std::move(mark));
  }
  constexpr double half_bar = 0.36;  // of the room of a feature
  double most = 0;
  std::string most_id;
  for (std::size_t i = 0; i < ids.size(); ++i) {
    const double at = static_cast<double>(i + 1);
    scene.x.ticks.push_back({at, ids[i]});
    const double mean = sums[i].first / sums[i].second;
    if (copies.size() > 1) scene.lines.push_back({{{at - half_bar, mean}, {at + half_bar, mean}}, Ink::text, false});
    if (std::abs(mean) > std::abs(most) || most_id.empty()) {
      most = mean;
      most_id = ids[i];
    }
  }
  scene.x.from = 0.4;
  scene.x.to = static_cast<double>(ids.size()) + 0.6;
  scene.y = y.axis(pad_share, 6, true, "");
  scene.keys = keys_of(cells, false);
  if (copies.size() > 1)
    for (std::size_t i = 0; i < std::min(copies.size(), by_copy.size()); ++i)
      scene.keys.push_back({by_copy[i], said("copy {}", copies[i])});
  scene.empty.clear();
  scene.said =
      said_many("Read minus fitted by feature, {} feature.", "Read minus fitted by feature, {} features.", ids.size()) +
      " " + said("Farthest over all copies: {}, {} mm.", most_id, shown_signed(most, decimals));
  return scene;
}

}  // namespace fitwright
