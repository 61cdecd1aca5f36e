#include "correct/evidence.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "base/words.hpp"
#include "model/priors.hpp"
#include "stats/summary.hpp"

namespace fitwright {
namespace {

constexpr double level = 0.95;
/// Scatter of one reading of a one-bead wall, mm (docs/mathematics.md).
constexpr double wall_reading_sd_mm = 0.02;

/// Coverage factor at 95 %; fewer than one degree of freedom (or none known) count as one.
double factor(double df) { return coverage_factor(level, df >= 1 ? df : 1.0); }

int index_of(Axis axis) { return axis == Axis::x ? 0 : axis == Axis::y ? 1 : axis == Axis::z ? 2 : -1; }

bool between_flats(Kind kind) { return kind == Kind::outer || kind == Kind::inner || kind == Kind::pitch; }

struct WallGroup {
  std::map<std::string, std::vector<double>> places;  ///< means on the copies, by place
  int readings = 0;
};

/// Scatter of the mean reading of one place of a wall. Few places may agree by luck: then that of lengths, or a typical
/// one, lends four degrees of freedom.
double place_scatter(double squares, double df, const Estimates& estimates) {
  constexpr double enough_df = 4;
  if (df >= enough_df) return std::sqrt(squares / df);
  const auto of_lengths = estimates.scatter.find("feature_mm");
  const double lent = of_lengths == estimates.scatter.end() ? prior::feature_sd_mm : of_lengths->second;
  return std::sqrt((prior::feature_df * lent * lent + squares) / (prior::feature_df + df));
}

}  // namespace

double Evidence::half_width() const {
  if (!known || !(u > 0)) return 0.0;
  return half ? *half : u * factor(df);
}

bool differs_from_zero(double value, double u, double df) {
  if (!std::isfinite(value) || std::isnan(u)) return false;
  constexpr double exact = 1e-12;  // rounding of sums, far below anything measured
  if (!(u > 0)) return std::abs(value) > exact;
  return std::abs(value) > factor(df) * u;
}

double shared_scatter_df(std::span<const Contribution> contributions) {
  double variance = 0;
  double spread = 0;
  for (const Contribution& c : contributions) {
    variance += c.u * c.u;
    spread += c.u * c.u / std::sqrt(c.df);
  }
  return spread > 0 ? variance * variance / (spread * spread) : std::numeric_limits<double>::infinity();
}

Evidence evidence(const Estimates& estimates, const std::string& parameter) {
  const Parameter* p = estimates.find(parameter);
  if (!p) return {};
  return {true, p->value, p->u, p->df, p->established, (p->upper - p->lower) / 2};
}

Evidence evidence(const Estimates& estimates, const Contrast& weights) {
  const std::optional<ContrastEstimate> c = contrast(estimates, weights);
  if (!c) return {};
  constexpr double exact = 1e-12;  // rounding of sums, far below anything measured
  return {true, c->value, c->u, c->df, std::abs(c->value) > std::max(c->half_width, exact), c->half_width};
}

Evidence shared_scale(const Estimates& estimates) {
  return evidence(estimates, Contrast{{name::scale_x, 0.5}, {name::scale_y, 0.5}});
}
Evidence scale_difference(const Estimates& estimates) {
  return evidence(estimates, Contrast{{name::scale_x, 1}, {name::scale_y, -1}});
}

std::array<double, 3> longest_lengths(const Estimates& estimates) {
  std::array<double, 3> longest{0, 0, 0};
  for (const Cell& cell : estimates.cells) {
    const int axis = index_of(cell.axis);
    if (axis < 0 || !between_flats(cell.kind)) continue;
    auto& l = longest[static_cast<std::size_t>(axis)];
    l = std::max(l, cell.feature.nominal_mm);
  }
  return longest;
}

std::vector<WallWidth> wall_widths(const Estimates& estimates) {
  std::map<double, WallGroup> groups;
  for (const Cell& cell : estimates.cells) {
    if (cell.kind != Kind::wall || cell.readings == 0) continue;
    WallGroup& group = groups[cell.feature.nominal_mm];
    group.places[cell.feature.id].push_back(cell.mean_mm);
    group.readings += cell.readings;
  }
  double squares = 0;
  double df = 0;
  std::vector<WallWidth> widths;
  for (auto& [drawn, group] : groups) {
    std::vector<double> means;
    for (const auto& [id, values] : group.places) means.push_back(mean(std::span<const double>(values)));
    const double width = mean(std::span<const double>(means));
    squares += static_cast<double>(sum_of_squares(std::span<const double>(means)));
    df += static_cast<double>(means.size()) - 1;
    widths.push_back({drawn, width, 0});
  }
  const double place_sd = place_scatter(squares, df, estimates);
  for (WallWidth& w : widths) {
    const WallGroup& group = groups[w.drawn_mm];
    w.u_mm = std::max(place_sd / std::sqrt(static_cast<double>(group.places.size())),
                      wall_reading_sd_mm / std::sqrt(static_cast<double>(group.readings)));
  }
  return widths;
}

std::optional<WallFlow> flow_by_walls(const Estimates& estimates, double flow, double layer_height_mm) {
  const double k = bead_side_loss_mm(layer_height_mm);
  const std::vector<WallWidth> widths = wall_widths(estimates);
  if (widths.empty()) return std::nullopt;
  WallFlow out;
  out.bead_widths = static_cast<int>(widths.size());
  const WallWidth& narrow = widths.front();
  const WallWidth& wide = widths.back();
  if (widths.size() > 1) {
    if (wide.measured_mm <= narrow.measured_mm) return std::nullopt;
    out.test = flow_from_two_walls(flow, narrow, wide);
    return out;
  }
  // One width: the model's value holds zero and ripple with their uncertainty.
  const Parameter* wall = estimates.find(name::wall);
  out.drawn_mm = narrow.drawn_mm;
  out.measured_mm = wall ? wall->value : narrow.measured_mm - estimates.value_or(name::caliper_zero, 0);
  if (out.drawn_mm <= k || out.measured_mm <= k) return std::nullopt;
  const Parameter* zero = estimates.find(name::caliper_zero);
  constexpr double zero_and_ripple_mm =
      0.0117;  // zero 0.01 and ripple 0.006 (docs/mathematics.md) when nothing tells them
  const double u = wall ? wall->u : std::hypot(narrow.u_mm, zero ? zero->u : zero_and_ripple_mm);
  out.test = flow_from_wall(flow, out.drawn_mm, out.measured_mm, u, layer_height_mm);
  return out;
}

std::string why_unknown(const Estimates& estimates, const std::string& parameter) {
  for (const NotSeparable& group : estimates.not_separable) {
    if (std::find(group.parameters.begin(), group.parameters.end(), parameter) == group.parameters.end()) continue;
    std::string text = tr("cannot be separated");
    if (!group.because.empty()) text += ": " + group.because;
    if (!group.would_need.empty()) text += "; " + said("it would need {}", group.would_need);
    return text;
  }
  return tr("no reading tells it");
}

}  // namespace fitwright
