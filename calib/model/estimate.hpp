#pragma once
// From readings to estimates: the one entry point of the error model.

#include <map>
#include <string>

#include "base/result.hpp"
#include "model/copy_prior.hpp"
#include "model/estimates.hpp"

namespace fitwright {

struct EstimateOptions {
  std::map<std::string, double> true_size_mm;  ///< of steel gauges and rings by feature_id, where not the nominal
  bool set_suspects_aside = true;              ///< false: suspicious readings are told but kept
  bool use_priors = true;                      ///< false: no weak prior anywhere
  CopyPrior copy_prior;                        ///< scatter between copies, assumed with one or two of them
};

/// Estimates of every parameter that the readings can carry (docs/mathematics.md has the model and the estimator).
/// Errors: Code::usage for a true size of a gauge that is not in the readings; Code::unanswerable when there is
/// nothing to estimate from (no readings of printed features).
Result<Estimates> estimate(const ReadingSet& readings, const EstimateOptions& options = {});

}  // namespace fitwright
