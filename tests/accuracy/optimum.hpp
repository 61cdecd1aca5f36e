#pragma once
// The best that can be done with the same readings when every variance is known: generalised least squares.
//
// Built from the practice printer's forward model alone (its derivatives, taken numerically about the truth, and its
// scatter), so that it shares no equation with the estimator that it is held against.

#include <map>
#include <string>

#include "practice/simulate.hpp"

namespace fitwright::accuracy {

struct Best {
  double u = 0;         ///< standard uncertainty of the known-noise interval, weak priors included
  double error = 0;     ///< error of the optimum on these readings
  double by_prior = 0;  ///< share of u^2 that comes from the weak priors
};

/// By the names of the estimates. A parameter is judged by the readings that are meant to bear on it: lengths, and for
/// the others lengths together with their own kind (heights, round, diagonals, walls); the caliper's zero, where closed
/// jaws or a gauge were read, by the steel alone, which stands first by design (docs/mathematics.md, section 6).
/// `everything`: by all at once, which shows what that rule costs. The weak priors are those of the estimator's
/// documentation, taken as known.
std::map<std::string, Best> optimum(const Truth& truth, const ReadingSet& without_slips, bool everything = false);

}  // namespace fitwright::accuracy
