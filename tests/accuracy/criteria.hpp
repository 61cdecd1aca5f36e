#pragma once
// What is asked of coverage, width and error, and whether a figure meets it.

#include <optional>

#include "accuracy/coverage.hpp"
#include "accuracy/loop.hpp"
#include "accuracy/pooled.hpp"

namespace fitwright::accuracy {

enum class Verdict {
  not_judged,
  met,
  within_margin,  ///< outside, by less than the 99 % margin of the runs (binomial; of the ratio of errors)
  missed,
};

/// Shares between which the coverage of 95 % intervals must lie.
struct Band {
  double low = 0;
  std::optional<double> high;
};

/// 3 copies: 0.93 to 0.97. 1 and 2 copies: at least 0.93, and at most 0.98 over truths whose scatter between copies is
/// drawn from the prior that the intervals rest on; at a fixed scatter below that prior they must hold more.
/// A parameter that rests on a weak prior, at a truth fixed at that prior's middle, must hold more as well: no upper
/// end.
Band coverage_band(const Scenario& scenario, const Tally& tally);

inline constexpr double most_width_ratio = 2.5;
inline constexpr double most_rmse_ratio = 1.1;
inline constexpr double least_inside = 0.93;
inline constexpr double most_mean_t = 1.3;

/// Share of the optimum's variance from weak priors beyond which a parameter counts as resting on them: with a tenth of
/// the variance missing, because the truth stands at the middle of the prior in every run, 95 % become 96 %.
inline constexpr double rests_share = 0.1;
bool rests_on_prior(const Tally& tally);

Verdict judge_coverage(const Scenario& scenario, const Tally& tally);
Verdict judge_width(const Tally& tally);
/// Not judged for parameters on a prior at a fixed truth: there any pull towards the middle looks like skill.
Verdict judge_rmse(const Scenario& scenario, const Tally& tally);

/// Of thousands of runs: the binomial margin is small, and the ratio of errors gets none.
Verdict judge_pooled_coverage(const Pooled& pooled);
Verdict judge_pooled_rmse(double ratio);

Verdict judge_inside(const LoopTally& tally);
/// Judged for the policies that should leave nothing.
Verdict judge_mean_t(const LoopTally& tally);

/// 99 % margin of a share of `share` in `runs` runs (normal approximation to the binomial).
double wide_margin(double share, int runs);

}  // namespace fitwright::accuracy
