#pragma once
// The posterior of a fit ladder in free parameters: (t_0, log gaps, log s).

#include <Eigen/Core>

#include "fits/ordinal.hpp"
#include "fits/thresholds.hpp"

namespace fitwright {

inline constexpr int ladder_parameters = threshold_count + 1;
using LadderVector = Eigen::Matrix<double, ladder_parameters, 1>;
using LadderMatrix = Eigen::Matrix<double, ladder_parameters, ladder_parameters>;

/// Equal places together, weighted by how often they were seen.
OrdinalData ladder_data(const TrialSet& trials, ClearanceUsed used);

/// Thresholds and scatter of free parameters, and back.
ThresholdDraw thresholds_at(const LadderVector& free);
LadderVector free_of(const ThresholdDraw& draw);

/// -log likelihood + penalties / 2, with gradient and second derivatives.
struct LadderPoint {
  double value = 0;
  double neg_log_likelihood = 0;
  LadderVector gradient = LadderVector::Zero();
  LadderMatrix hessian = LadderMatrix::Zero();
};
LadderPoint ladder_at(const OrdinalData& data, const LadderVector& free);
/// The value alone.
double ladder_value(const OrdinalData& data, const LadderVector& free);
/// The penalties' part: what the weak prior alone says.
LadderMatrix prior_curvature(const LadderVector& free);

/// Where the posterior is greatest: damped Newton from the midpoints between the grades.
LadderVector ladder_maximum(const OrdinalData& data);

/// `draws` equally weighted draws, and the posterior's 2.5 % and 97.5 % points of t_0 .. t_3, s.
struct LadderSample {
  std::vector<ThresholdDraw> draws;
  std::array<double, ladder_parameters> lower{}, upper{};
  double effective = 0;  ///< effective number of the points
};
LadderSample sample_ladder(const OrdinalData& data, const LadderVector& maximum);

}  // namespace fitwright
