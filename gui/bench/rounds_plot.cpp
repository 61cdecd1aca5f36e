#include <algorithm>
#include <map>
#include <utility>

#include "base/words.hpp"
#include "bench/plot_parts.hpp"
#include "bench/plots.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

constexpr double pad_share = 0.06;
constexpr int curve_samples = 64;

bool is_round(Kind kind) { return kind == Kind::hole || kind == Kind::pin || kind == Kind::peg; }
Ink ink_of(Kind kind) { return ink_of(kind, Axis::n); }

std::string singular(Kind kind) { return tr(kind == Kind::peg ? "peg" : kind == Kind::pin ? "pin hole" : "hole"); }
std::string plural(Kind kind) {
  return kind == Kind::peg ? tr("pegs") : kind == Kind::pin ? tr("pin holes") : tr("holes");
}

/// Weights of the parameters in the reading of a standing hole or peg, and those that make the curve's place and form.
std::pair<Contrast, Contrast> contrasts(Kind kind, double d_mm) {
  const bool peg = kind == Kind::peg;
  Contrast own{{peg ? name::peg_p0 : name::hole_c0, -1}};
  Contrast all{{name::scale_x, d_mm / 2},
               {name::scale_y, d_mm / 2},
               {name::edge_growth, peg ? 2 : -2},
               {peg ? name::peg_p0 : name::hole_c0, -1},
               {peg ? name::peg_p1 : name::hole_c1, -1 / d_mm}};
  if (kind != Kind::pin) all[name::caliper_zero] = 1;
  if (kind == Kind::hole) all[name::inside_bias] = 1;
  return {all, own};
}

using Curve = std::map<double, double>;  // fitted deviation by diameter

/// Between two diameters the fitted deviation runs almost straight in 1/d, the form of its law.
double at(const Curve& curve, double d) {
  const auto above = curve.lower_bound(d);
  if (above == curve.begin()) return above->second;
  if (above == curve.end()) return std::prev(above)->second;
  const auto below = std::prev(above);
  const double share = (1 / d - 1 / below->first) / (1 / above->first - 1 / below->first);
  return below->second + share * (above->second - below->second);
}

void add_curve(const Estimates& estimates, Kind kind, const Curve& curve, PlotScene& scene, Range& y) {
  const double from = curve.begin()->first;
  const double to = curve.rbegin()->first;
  PlotLine line{{}, ink_of(kind), kind == Kind::pin};
  PlotBand band;
  band.ink = line.ink;
  for (int i = 0; i <= curve_samples; ++i) {
    const double d = from + (to - from) * i / curve_samples;
    const double value = at(curve, d);
    line.points.push_back({d, value});
    const auto [all, own] = contrasts(kind, d);
    const auto half = half_width_95(estimates, all, own);
    if (!half) continue;
    band.upper.push_back({d, value + *half});
    band.lower.push_back({d, value - *half});
    y.show(value + *half);
    y.show(value - *half);
  }
  if (band.upper.size() > 1) scene.bands.push_back(std::move(band));
  const bool pin = kind == Kind::pin;  // small ones only: the words stand at their free side
  scene.labels.push_back({pin ? line.points.front() : line.points.back(), plural(kind), line.ink, pin});
  scene.lines.push_back(std::move(line));
}

}  // namespace

PlotScene rounds_plot(const Analysis& analysis) {
  PlotScene scene;
  scene.title = tr("Read minus drawn, mm");
  scene.empty = tr("Holes and pegs appear here against their diameter, once some are read.");
  scene.said = scene.empty;
  if (!analysis.estimates) return scene;

  std::map<Kind, std::map<double, std::pair<double, int>>> sums;
  Range x, y;
  x.show(0);
  y.show(0);
  for (const Cell& cell : analysis.estimates->cells) {
    if (!is_round(cell.kind)) continue;
    scene.marks.push_back(place_mark(analysis, cell, ink_of(cell.kind), shape_of(cell.kind)));
    x.show(cell.feature.nominal_mm);
    y.show(cell.mean_mm - cell.feature.nominal_mm);
    auto& [sum, count] = sums[cell.kind][cell.feature.nominal_mm];
    sum += cell.fitted_mm - cell.feature.nominal_mm;
    ++count;
  }
  if (sums.empty()) return scene;

  scene.said = said_many("Read minus drawn against diameter, {} place.",
                         "Read minus drawn against diameter, {} places.", scene.marks.size());
  for (const auto& [kind, by_diameter] : sums) {
    Curve curve;
    for (const auto& [d, sum_count] : by_diameter) curve[d] = sum_count.first / sum_count.second;
    add_curve(*analysis.estimates, kind, curve, scene, y);
    scene.keys.push_back({shape_of(kind), singular(kind)});
    scene.said += " " + said("{}: {} mm at \u00d8 {}, {} mm at \u00d8 {}.", scene.labels.back().text,
                             shown_signed(curve.begin()->second, 2), shown_exact(curve.begin()->first),
                             shown_signed(curve.rbegin()->second, 2), shown_exact(curve.rbegin()->first));
  }
  scene.empty.clear();
  scene.x = x.axis(pad_share, 6, false, tr("drawn \u00d8, mm"));
  scene.y = y.axis(pad_share, 6, true, "");
  const std::size_t before = scene.marks.size();
  add_set_aside(analysis, scene, is_round);
  if (scene.marks.size() > before) scene.keys.push_back({Shape::cross, tr("set aside"), Ink::warn});
  return scene;
}

}  // namespace fitwright
