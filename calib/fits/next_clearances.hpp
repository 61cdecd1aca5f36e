#pragma once
// Which clearances to print next, so that the thresholds that matter become sure.

#include <array>
#include <vector>

#include "fits/thresholds.hpp"

namespace fitwright {

struct NextClearances {
  std::vector<double> clearance_mm;  ///< in order of clearance; a value may stand several times (copies)
  std::array<double, threshold_count> sd_now_mm{}, sd_after_mm{};  ///< of the thresholds, as expected
};

/// Weights of the thresholds that bound a fit.
std::array<double, threshold_count> weights_for(Fit fit);

/// Adds `count` places greedily, each the one on a grid of 0.025 mm that leaves the least weighted sum of variances of
/// the thresholds (expected information of the ordinal probit at the estimates, s not below 0.02 mm).
NextClearances next_clearances(const TrialSet& trials, const Thresholds& thresholds,
                               const std::array<double, threshold_count>& weights, int count);

}  // namespace fitwright
