#include "fits/chance.hpp"

#include <cmath>

#include "stats/intervals.hpp"

namespace fitwright {
namespace {

/// Equally likely values of the variance that are averaged over.
constexpr int variance_nodes = 10;
/// More draws of the thresholds than these change the chance by about 0.001.
constexpr std::size_t most_draws = 256;
/// Variance of a finite number of degrees of freedom is not taken to have fewer: its upper tail would have no mean.
constexpr double least_df = 3;

}  // namespace

ChanceForm::ChanceForm(const Thresholds& thresholds, const ClearanceLaw& law) {
  std::array<double, variance_nodes> variance{};
  for (int j = 0; j < variance_nodes; ++j) {
    const double p = (j + 0.5) / variance_nodes;
    const double df = std::max(law.df, least_df);
    variance[static_cast<std::size_t>(j)] =
        law.variance() * (std::isfinite(df) && df < 1e6 ? df / chi_squared_quantile(p, df) : 1.0);
  }
  const auto& draws = thresholds.draws;
  const std::size_t step = std::max<std::size_t>(1, draws.size() / most_draws);
  double sum = 0;
  for (std::size_t i = step / 2; i < draws.size(); i += step) sum += draws[i].weight;
  for (std::size_t i = step / 2; i < draws.size(); i += step) {
    Term term{};
    for (std::size_t k = 0; k < term.t_mm.size(); ++k) term.t_mm[k] = draws[i].t_mm[k] + law.threshold_shift_mm;
    const LadderScatter ladder = ladder_scatter(draws[i].s_mm, law);
    for (const double v : variance) {
      term.over_sd = 1 / std::sqrt(ladder.feel_variance + ladder.place_variance + v);
      term.weight = draws[i].weight / sum / variance_nodes;
      terms_.push_back(term);
    }
  }
}

double ChanceForm::at_most(int k, double clearance_mm) const {
  if (k < 0) return 0;
  if (k >= threshold_count) return 1;
  double p = 0;
  for (const Term& t : terms_)
    p += t.weight * normal_chance((t.t_mm[static_cast<std::size_t>(k)] - clearance_mm) * t.over_sd);
  return p;
}

double ChanceForm::of(Grade grade, double clearance_mm) const {
  const int k = static_cast<int>(grade);
  return std::max(0.0, at_most(k, clearance_mm) - at_most(k - 1, clearance_mm));
}

std::array<double, grade_count> ChanceForm::at(double clearance_mm) const {
  std::array<double, grade_count> out{};
  double below = 0;
  for (int k = 0; k < grade_count; ++k) {
    const double p = at_most(k, clearance_mm);
    out[static_cast<std::size_t>(k)] = std::max(0.0, p - below);
    below = p;
  }
  return out;
}

}  // namespace fitwright
