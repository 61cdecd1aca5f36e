#pragma once
// How often the estimator's intervals hold the truth, how wide they are, and how far off its values are.

#include <string>
#include <vector>

#include "accuracy/scenario.hpp"

namespace fitwright::accuracy {

/// One parameter over all runs of a scenario.
struct Tally {
  std::string parameter;
  int runs = 0;              ///< in which it was estimated
  int missing = 0;           ///< in which the optimum has it and the estimator has not
  double coverage = 0;       ///< share of runs whose 95 % interval holds the truth
  double best_coverage = 0;  ///< the same of the known-noise interval: 0.95 when all is right with this program
  double half_width = 0;     ///< median
  double width_ratio = 0;    ///< median of half-width over that of the known-noise interval of the same run
  double rmse_ratio = 0;     ///< root mean square of the error over the optimum's on the same readings, both in
                             ///< units of the optimum's standard uncertainty
  double square = 0, best_square = 0;  ///< the mean squares that ratio is of
  double rmse_ratio_u = 0;             ///< standard uncertainty of that ratio from the runs
  double by_prior = 0;                 ///< share of the variance of the optimum that comes from weak priors (median)
  double rule_cost = 0;                ///< median of u of the optimum over u of the optimum by all readings at once
  double joint_square = 0;             ///< mean square of (error of the optimum by all readings at once / best u)
};

struct Coverage {
  Scenario scenario;
  int runs = 0;
  std::vector<Tally> tallies;  ///< in the estimator's order of parameters
  std::string method;          ///< of the first run
};

Coverage coverage_of(const Scenario& scenario, int runs, int threads);

/// Half-width of the 95 % margin of a share of 0.95 seen in `runs` runs (normal approximation to the binomial).
double margin_of_95(int runs);

/// The text of a scenario in a table of scenarios.
std::string text_of(const Scenario& scenario);

}  // namespace fitwright::accuracy
