#pragma once
// Ordered categories explained by numbers: cumulative link models, of which a yes / no is the case of two categories.
//
//   P(Y <= k) = F(theta_k - x'b),  k = 0 .. K-2
// (McCullagh, Regression models for ordinal data, JRSS B 42, 1980).

#include <Eigen/Core>
#include <vector>

#include "base/result.hpp"
#include "fits/link.hpp"

namespace fitwright {

struct OrdinalData {
  Eigen::MatrixXd x;          ///< n x p
  std::vector<int> category;  ///< n, each 0 .. categories - 1
  Eigen::VectorXd weight;     ///< n, how often a row was seen; empty: once
  int categories = 2;
};

/// Log likelihood at (theta, b), with gradient and matrix of second derivatives in that order of parameters.
/// Thresholds that are not in order give minus infinity, and no derivatives.
struct OrdinalPoint {
  double log_likelihood = 0;
  Eigen::VectorXd gradient;
  Eigen::MatrixXd hessian;
};
OrdinalPoint ordinal_at(const OrdinalData& data, Link link, const Eigen::VectorXd& parameters);

struct OrdinalFit {
  Eigen::VectorXd parameters;  ///< theta_0 .. theta_{K-2}, then b
  Eigen::MatrixXd covariance;  ///< inverse of the observed information
  double log_likelihood = 0;   ///< without binomial constants
  int steps = 0;
};

/// Maximum likelihood by Newton's method. Errors: Code::unanswerable when it has no finite maximum (categories that
/// separate, columns that depend on each other, a category that nobody chose).
Result<OrdinalFit> fit_ordinal(const OrdinalData& data, Link link);

}  // namespace fitwright
