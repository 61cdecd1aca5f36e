#pragma once
// Sums of parameters with their uncertainty: the one home of intervals.

#include <map>
#include <optional>
#include <string>

#include "model/estimates.hpp"

namespace fitwright {

/// Weights by parameter name: sum of weight * parameter.
using Contrast = std::map<std::string, double>;

struct ContrastEstimate {
  double value = 0;
  double u = 0;                 ///< standard uncertainty, from the covariance
  double df = 0;                ///< effective degrees of freedom (Welch-Satterthwaite over independent parts)
  double half_width = 0;        ///< of the 95 % interval
  bool rests_on_prior = false;  ///< a weak prior or assumed scatter took part
};

/// The independent parts of all parameters' uncertainty. Estimates made by hand carry only the covariance: one part,
/// with each parameter's own degrees of freedom.
std::vector<UncertaintyPart> parts_of(const Estimates& estimates);

/// Uncertainty of weights . terms from independent parts (see UncertaintyPart), each over the same terms.
/// Degrees of freedom above 1e9 are given as 1e9, below 1 as 1. Scatter between copies that was assumed gets an
/// interval of its own kind (stats/assumed_scatter.hpp). `value` is left 0.
ContrastEstimate uncertainty_of(const std::vector<UncertaintyPart>& parts, const Eigen::VectorXd& weights);

/// The estimate of a sum of parameters. Empty when a parameter with a weight other than 0 was not estimated; NaN
/// uncertainty when that of one of them is unknown.
std::optional<ContrastEstimate> contrast(const Estimates& estimates, const Contrast& weights);

}  // namespace fitwright
