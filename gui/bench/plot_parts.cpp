#include "bench/plot_parts.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/words.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

constexpr int decimals = 2;  // what a caliper shows

}  // namespace

std::optional<double> half_width_95(const Estimates& estimates, const Contrast& contrast, const Contrast& needed) {
  for (const auto& [name, weight] : needed)
    if (!estimates.find(name)) return std::nullopt;
  Contrast told;  // what was not estimated takes no part
  for (const auto& [name, weight] : contrast)
    if (estimates.find(name)) told[name] = weight;
  const auto sum = fitwright::contrast(estimates, told);
  return sum ? std::optional(sum->half_width) : std::nullopt;
}

void Range::show(double value) {
  if (!std::isfinite(value)) return;
  low_ = empty_ ? value : std::min(low_, value);
  high_ = empty_ ? value : std::max(high_, value);
  empty_ = false;
}

PlotAxis Range::axis(double pad_share, int ticks, bool signs, std::string title) const {
  double low = low_;
  double high = high_;
  if (!(high > low)) {
    low -= 0.5;
    high += 0.5;
  }
  const double pad = pad_share * (high - low);
  PlotAxis axis{low - pad, high + pad, {}, std::move(title)};
  axis.ticks = nice_ticks(axis.from, axis.to, ticks, signs);
  return axis;
}

Shape shape_of(Kind kind) {
  switch (kind) {
    case Kind::inner:
    case Kind::peg:
    case Kind::flats_plus:
    case Kind::flats_minus:
      return Shape::square;
    case Kind::pitch:
    case Kind::wall:
      return Shape::diamond;
    case Kind::pin:
    case Kind::hole_h:
      return Shape::triangle;
    default:
      return Shape::disc;
  }
}

Ink ink_of(Axis axis) {
  return axis == Axis::x ? Ink::x : axis == Axis::y ? Ink::y : axis == Axis::z ? Ink::z : Ink::text;
}

Ink ink_of(Kind kind, Axis axis) {
  if (kind == Kind::peg) return Ink::peg;
  if (kind == Kind::hole || kind == Kind::pin || kind == Kind::hole_h) return Ink::hole;
  return ink_of(axis);
}

PlotMark place_mark(const Analysis& analysis, const Cell& cell, Ink ink, Shape shape) {
  PlotMark mark;
  mark.at = {cell.feature.nominal_mm, cell.mean_mm - cell.feature.nominal_mm};
  mark.ink = ink;
  mark.shape = shape;
  mark.said = said_many("{1}, copy {2}: {3}, {4} mm from drawn, mean of {0} reading",
                        "{1}, copy {2}: {3}, {4} mm from drawn, mean of {0} readings",
                        static_cast<std::size_t>(std::max(0, cell.readings)), cell.feature.id, cell.copy,
                        shown(cell.mean_mm, decimals), shown_signed(mark.at.y, decimals));
  for (const std::size_t i : cell.rows) mark.rows.push_back(analysis.row_of.at(i));
  return mark;
}

void add_set_aside(const Analysis& analysis, PlotScene& scene, const std::function<bool(Kind)>& wanted) {
  for (const SuspectReading& s : analysis.estimates->suspects) {
    const Reading& r = analysis.read.rows.at(s.suspect.index);
    if (s.used || !wanted(r.feature.kind)) continue;
    PlotMark mark;
    mark.at = {r.feature.nominal_mm, r.reading_mm - r.feature.nominal_mm};
    mark.ink = Ink::warn;
    mark.shape = Shape::cross;
    mark.said = said("{}, copy {}, {} reading: {}, set aside", r.feature.id, r.copy, ordinal(r.repeat),
                     shown(r.reading_mm, decimals));
    mark.rows = {analysis.row_of.at(s.suspect.index)};
    scene.marks.push_back(std::move(mark));
  }
}

}  // namespace fitwright
