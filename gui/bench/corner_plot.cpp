#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "base/words.hpp"
#include "bench/plot_parts.hpp"
#include "bench/plots.hpp"
#include "bench/shown.hpp"
#include "report/wording.hpp"

namespace fitwright {
namespace {

/// Share of the side by which the far corner is drawn aside, at most: enough to be seen, and still a square to the eye.
constexpr double wanted_share = 0.22;

bool across_corners(Kind kind) {
  return kind == Kind::diag_plus || kind == Kind::diag_minus || kind == Kind::flats_plus || kind == Kind::flats_minus;
}
bool rises(Kind kind) { return kind == Kind::diag_plus || kind == Kind::flats_plus; }

/// The largest of 1, 2, 5 times a power of ten that is not above `value`; at least 1.
double round_below(double value) {
  if (!(value > 1) || !std::isfinite(value)) return 1;
  const double decade = std::pow(10.0, std::floor(std::log10(value)));
  double best = decade;
  for (const double step : {2.0, 5.0})
    if (step * decade <= value) best = step * decade;
  return best;
}

}  // namespace

PlotScene corner_plot(const Analysis& a) {
  PlotScene scene;
  scene.drawing = true;
  scene.empty = tr("The corner between X and Y appears here, once both diagonals of a frame are read.");
  scene.said = scene.empty;
  const Parameter* skew = a.estimates ? a.estimates->find(name::skew_xy) : nullptr;
  if (!skew || !std::isfinite(skew->value)) return scene;
  const bool has_interval = std::isfinite(skew->lower) && std::isfinite(skew->upper);

  double side = 0;  // of the square whose diagonals were read
  std::map<bool, std::vector<const Cell*>> by_rise;
  for (const Cell& cell : a.estimates->cells) {
    if (!across_corners(cell.kind) || cell.rows.empty()) continue;
    side = std::max(side, cell.feature.nominal_mm / std::sqrt(2.0));
    by_rise[rises(cell.kind)].push_back(&cell);
  }
  if (!(side > 0)) side = 100;

  const double reach = has_interval ? std::max(std::abs(skew->lower), std::abs(skew->upper)) : std::abs(skew->value);
  const double factor = round_below(reach > 0 ? wanted_share / reach : 1);
  const double shift = factor * skew->value * side;
  const auto sheared = [&](double x, double y, double by) { return PlotPoint{x + by * y / side, y}; };

  const std::array<PlotPoint, 5> drawn{{{0, 0}, {side, 0}, {side, side}, {0, side}, {0, 0}}};
  scene.lines.push_back({{drawn.begin(), drawn.end()}, Ink::quiet, true});
  std::vector<PlotPoint> printed;
  for (const PlotPoint& p : drawn) printed.push_back(sheared(p.x, p.y, shift));
  scene.lines.push_back({{printed[1], printed[2], printed[3]}, Ink::text, false});
  scene.lines.push_back({{printed[0], printed[1]}, Ink::x, false});
  scene.lines.push_back({{printed[0], printed[3]}, Ink::y, false});
  scene.lines.push_back({{printed[0], printed[2]}, Ink::quiet, false});
  scene.lines.push_back({{printed[3], printed[1]}, Ink::quiet, false});
  if (has_interval) {
    const double low = factor * skew->lower * side;
    const double high = factor * skew->upper * side;
    for (const double x : {0.0, side})
      scene.bands.push_back({{{x, 0}, sheared(x, side, low)}, {{x, 0}, sheared(x, side, high)}, Ink::y});
  }
  for (const auto& [rising, cells] : by_rise)
    for (std::size_t i = 0; i < cells.size(); ++i) {
      // On the left half of each diagonal, so that none covers one of the other where they cross.
      const double share = 0.5 * static_cast<double>(i + 1) / static_cast<double>(cells.size() + 1);
      const double y = rising ? share * side : (1 - share) * side;
      PlotMark mark = place_mark(a, *cells[i], Ink::text, shape_of(cells[i]->kind));
      mark.at = sheared(share * side, y, shift);
      scene.marks.push_back(std::move(mark));
    }

  const Wording w = wording(name::skew_xy);
  const double half = has_interval ? (skew->upper - skew->lower) / 2 : 0;
  const int decimals = value_and_u(skew->value * w.per_unit, skew->u * w.per_unit).decimals;
  const std::string angle = shown(std::abs(skew->value) * w.per_unit, decimals) + w.unit;
  const std::string within = has_interval ? shown(half * w.per_unit, decimals) + w.unit : std::string(tr("not known"));
  scene.title = skew->value >= 0 ? said("Corner {} (\u00b1 {}) less than square, drawn {} times as far off", angle,
                                        within, shown_exact(factor))
                                 : said("Corner {} (\u00b1 {}) more than square, drawn {} times as far off", angle,
                                        within, shown_exact(factor));
  scene.labels.push_back({{side / 2, -0.08 * side}, tr("X"), Ink::x});
  scene.labels.push_back({sheared(0, side / 2, shift), tr("Y"), Ink::y, true});
  scene.labels.push_back({printed[2], tr("as printed"), Ink::text});
  const double longer = skew->value * side * std::sqrt(2.0);  // of diagonal +, to first order in the shear
  scene.said = scene.title + ". " +
               said("On a square of {} mm one diagonal is {} mm longer than the other.", shown(side, 0),
                    shown(std::abs(longer), 2));
  if (!scene.marks.empty()) scene.keys = {{scene.marks.front().shape, tr("a diagonal as read"), Ink::text}};
  const double aside = std::max(std::abs(shift), factor * reach * side);
  scene.x.from =
      -(skew->value < 0 || !has_interval ? aside : std::max(0.0, -factor * skew->lower * side)) - 0.06 * side;
  scene.x.to = side + (skew->value > 0 ? aside : std::max(0.0, factor * skew->upper * side)) + 0.06 * side;
  scene.y.from = -0.16 * side;
  scene.y.to = 1.05 * side;
  scene.empty.clear();
  return scene;
}

}  // namespace fitwright
