#include "fits/next_clearances.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

#include "fits/ladder_posterior.hpp"
#include "stats/intervals.hpp"

namespace fitwright {
namespace {

/// Ladders are drawn on this grid, mm.
constexpr double grid_mm = 0.025;
/// Grid: from this far below the first threshold to this far above the last, mm.
constexpr double beyond_mm = 0.15;
/// Scatter is not believed below it when planning: a ladder that separates perfectly shows none.
constexpr double least_s_mm = 0.02;

double density(double z) { return 0.3989422804014327 * std::exp(-0.5 * z * z); }

/// Expected information of one place at clearance `c` about (t_0 .. t_3, log s).
LadderMatrix information_at(double c, const ThresholdDraw& d) {
  LadderMatrix info = LadderMatrix::Zero();
  for (int g = 0; g < grade_count; ++g) {
    LadderVector slope = LadderVector::Zero();  // of P(grade g)
    double p = g == grade_count - 1 ? 1.0 : 0.0;
    for (const int k : {g, g - 1}) {
      if (k < 0 || k >= threshold_count) continue;
      const double z = (d.t_mm[static_cast<std::size_t>(k)] - c) / d.s_mm;
      const double sign = k == g ? 1 : -1;
      p += sign * normal_chance(z);
      slope[k] += sign * density(z) / d.s_mm;
      slope[threshold_count] -= sign * density(z) * z;
    }
    if (p > 1e-12) info += slope * slope.transpose() / p;
  }
  return info;
}

/// Curvature of the weak prior over (t_0 .. t_3, log s) at the estimates, by the slopes of its free parameters.
LadderMatrix prior_information(const ThresholdDraw& d) {
  LadderMatrix out = LadderMatrix::Zero();
  for (int k = 0; k < threshold_count; ++k) out(k, k) += 1 / (ladder_prior::t_sd_mm * ladder_prior::t_sd_mm);
  for (int k = 1; k < threshold_count; ++k) {
    const double gap = d.t_mm[static_cast<std::size_t>(k)] - d.t_mm[static_cast<std::size_t>(k - 1)];
    LadderVector slope = LadderVector::Zero();
    slope[k] = 1 / gap;
    slope[k - 1] = -1 / gap;
    out += slope * slope.transpose() / (ladder_prior::gap_log_sd * ladder_prior::gap_log_sd);
  }
  out(threshold_count, threshold_count) += 1 / (ladder_prior::s_log_sd * ladder_prior::s_log_sd);
  return out;
}

LadderMatrix inverse(const LadderMatrix& m) { return m.ldlt().solve(LadderMatrix::Identity()); }

std::array<double, threshold_count> sds(const LadderMatrix& covariance) {
  std::array<double, threshold_count> out{};
  for (int k = 0; k < threshold_count; ++k) out[static_cast<std::size_t>(k)] = std::sqrt(covariance(k, k));
  return out;
}

}  // namespace

std::array<double, threshold_count> weights_for(Fit fit) {
  std::array<double, threshold_count> out{};
  const auto grade = static_cast<std::size_t>(grade_of(fit));
  out[grade - 1] = 1;
  if (grade < out.size()) out[grade] = 1;
  return out;
}

NextClearances next_clearances(const TrialSet& trials, const Thresholds& thresholds,
                               const std::array<double, threshold_count>& weights, int count) {
  ThresholdDraw d;
  for (std::size_t k = 0; k < d.t_mm.size(); ++k) d.t_mm[k] = thresholds.t_mm[k].value;
  d.s_mm = std::max(thresholds.s_mm.value, least_s_mm);
  LadderMatrix information = prior_information(d);
  for (const FitTrial& t : trials.rows)
    information += information_at(
        thresholds.used == ClearanceUsed::measured ? t.measured_clearance_mm.value_or(t.clearance_mm) : t.clearance_mm,
        d);
  NextClearances out;
  out.sd_now_mm = sds(inverse(information));
  const int first = static_cast<int>(std::floor((d.t_mm.front() - beyond_mm) / grid_mm));
  const int last = static_cast<int>(std::ceil((d.t_mm.back() + beyond_mm) / grid_mm));
  for (int n = 0; n < count; ++n) {
    int best = first;
    double least = 0;
    for (int i = first; i <= last; ++i) {
      const LadderMatrix covariance = inverse(information + information_at(i * grid_mm, d));
      double sum = 0;
      for (int k = 0; k < threshold_count; ++k) sum += weights[static_cast<std::size_t>(k)] * covariance(k, k);
      if (i == first || sum < least) least = sum, best = i;
    }
    information += information_at(best * grid_mm, d);
    out.clearance_mm.push_back(best / 40.0);
  }
  static_assert(grid_mm * 40 == 1);  // so that multiples are written exactly
  std::sort(out.clearance_mm.begin(), out.clearance_mm.end());
  out.sd_after_mm = sds(inverse(information));
  return out;
}

}  // namespace fitwright
