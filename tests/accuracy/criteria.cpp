#include "accuracy/criteria.hpp"

#include <cmath>

#include "stats/intervals.hpp"

namespace fitwright::accuracy {
namespace {

/// Quantile of the two-sided 99 % margin.
constexpr double wide_level = 0.995;

}  // namespace

bool rests_on_prior(const Tally& t) { return t.by_prior > rests_share; }

double wide_margin(double share, int runs) {
  return normal_quantile(wide_level) * std::sqrt(share * (1 - share) / runs);
}

Band coverage_band(const Scenario& scenario, const Tally& tally) {
  Band band{0.93, std::nullopt};
  if (rests_on_prior(tally) && scenario.truths == Truths::fixed) return band;
  if (scenario.lay.copies >= 3)
    band.high = 0.97;
  else if (scenario.truths == Truths::drawn_scatter)
    band.high = 0.98;
  return band;
}

Verdict judge_coverage(const Scenario& scenario, const Tally& t) {
  const Band band = coverage_band(scenario, t);
  if (t.coverage < band.low)
    return t.coverage < band.low - wide_margin(band.low, t.runs) ? Verdict::missed : Verdict::within_margin;
  if (band.high && t.coverage > *band.high)
    return t.coverage > *band.high + wide_margin(*band.high, t.runs) ? Verdict::missed : Verdict::within_margin;
  return Verdict::met;
}

Verdict judge_width(const Tally& t) { return t.width_ratio <= most_width_ratio ? Verdict::met : Verdict::missed; }

Verdict judge_rmse(const Scenario& scenario, const Tally& t) {
  if (rests_on_prior(t) && scenario.truths == Truths::fixed) return Verdict::not_judged;
  if (t.rmse_ratio <= most_rmse_ratio) return Verdict::met;
  const double margin = normal_quantile(wide_level) * t.rmse_ratio_u;
  return t.rmse_ratio > most_rmse_ratio + margin ? Verdict::missed : Verdict::within_margin;
}

Verdict judge_pooled_coverage(const Pooled& pooled) {
  Tally tally;
  tally.runs = pooled.runs;
  tally.coverage = pooled.coverage;
  return judge_coverage(pooled.scenario, tally);
}

Verdict judge_pooled_rmse(double ratio) {
  if (ratio == 0) return Verdict::not_judged;
  return ratio <= most_rmse_ratio ? Verdict::met : Verdict::missed;
}

Verdict judge_inside(const LoopTally& t) {
  if (t.inside >= least_inside) return Verdict::met;
  return t.inside < least_inside - wide_margin(least_inside, t.runs) ? Verdict::missed : Verdict::within_margin;
}

Verdict judge_mean_t(const LoopTally& t) {
  if (!makes_right(t.policy)) return Verdict::not_judged;
  return t.mean_t < most_mean_t ? Verdict::met : Verdict::missed;
}

}  // namespace fitwright::accuracy
