#pragma once
// Figures over several scenarios at once: rare large errors, and small faults of coverage, that one scenario leaves
// within its margin of chance.

#include <string>
#include <vector>

#include "accuracy/coverage.hpp"

namespace fitwright::accuracy {

/// One parameter over all scenarios of drawn truths with the same places and lay (steel read or not, slips or none).
struct Pooled {
  Scenario scenario;  ///< the first of them
  std::string parameter;
  int runs = 0;
  double coverage = 0;
  double rmse_clean = 0, rmse_slips = 0;  ///< root mean square error over the optimum's; 0: no such scenario was run
};

/// In the order of the scenarios, then of the estimator's parameters.
std::vector<Pooled> pooled(const std::vector<Coverage>& coverage);

}  // namespace fitwright::accuracy
