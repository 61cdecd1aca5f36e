#pragma once
// Linear mixed models y = X b + e, Var(y) = sum_k theta_k V_k, fitted by restricted maximum likelihood, with degrees of
// freedom and covariances that hold for few groups.

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace fitwright {

/// What is known of a variance beforehand: a scaled inverse chi-squared with `df` degrees of freedom about `variance`.
/// It adds -0.5 df (log theta + variance / theta) to the restricted log likelihood and 0.5 df / theta^2 to the
/// information; a component that the data say nothing about ends at `variance` with `df` degrees of freedom.
struct VariancePrior {
  double variance = 0;  ///< unit of y squared, > 0
  double df = 0;        ///< > 0
};

/// One source of scatter: V = factor factor' or V = diag(diagonal); exactly one of the two is given.
struct VarianceComponent {
  std::string name;          ///< for messages
  Eigen::MatrixXd factor;    ///< n x q: a column per independent effect, entries are how far it moves each row
  Eigen::VectorXd diagonal;  ///< n, >= 0: effects of each row alone, 1/readings for a mean of readings, 0 where absent
  std::optional<VariancePrior> prior;
};

/// Effects shared by the rows of equal level (levels 0, 1, ...; -1: the row has none of it), moving a row by
/// `slope` (empty: by 1).
VarianceComponent grouped_component(std::string name, const std::vector<int>& level, const Eigen::VectorXd& slope = {});

/// Independent scatter of each row with variance theta * weight.
VarianceComponent diagonal_component(std::string name, Eigen::VectorXd weight);

struct RemlOptions {
  int most_iterations = 200;
  double relative_step = 1e-10;  ///< stops when no variance moves by more than this share of itself
};

/// How the iteration ended.
enum class RemlEnd {
  converged,        ///< the last step was below relative_step, or rounding leaves nothing to gain
  stalled,          ///< no step up was found, although the score asks for one: do not use
  iteration_limit,  ///< most_iterations reached: do not use
};

/// n rows, p fixed effects, K components. Units follow y and X.
struct Reml {
  Eigen::VectorXd variances;                 ///< theta, K; exactly 0 at the boundary
  std::vector<bool> at_zero;                 ///< by component: at the boundary, and left out of the information
  Eigen::VectorXd coefficients;              ///< b, p
  Eigen::MatrixXd covariance;                ///< Phi = (X' V^-1 X)^-1 at theta, p x p
  Eigen::MatrixXd kenward_roger;             ///< Phi + 2 Phi Lambda Phi: with the uncertainty of theta in it, p x p
  Eigen::MatrixXd variance_covariance;       ///< W, inverse expected information of theta, K x K; rows of 0 at_zero
  std::vector<Eigen::MatrixXd> sensitivity;  ///< dPhi / dtheta_k, K of p x p
  std::vector<Eigen::VectorXd> effects;  ///< best linear unbiased predictions by component with a factor, else empty
  double log_likelihood = 0;             ///< -0.5 (log|V| + log|X'V^-1X| + y'Py); without (n-p) log(2 pi) and priors
  double log_prior = 0;                  ///< -0.5 sum df (log theta + variance / theta)
  int iterations = 0;
  RemlEnd end = RemlEnd::converged;
};

/// Fits by scoring (expected information, the observed one near the end) with step halving, theta >= 0.
/// Time is of order (n q^2 + K^2 q^2) an iteration with q the factor columns of all components together.
/// Errors: Code::unanswerable when fixed effects cannot be told apart, when components without a prior cannot (they
/// are named), when shared effects explain every reading exactly, or when the data show no scatter at all and there is
/// no prior; Code::bad_input for values not finite.
/// Throws std::invalid_argument for sizes that do not match, a component with neither or both of factor and diagonal,
/// no diagonal component, or a prior not above zero (defects in the caller).
/// Sources: Patterson & Thompson, Biometrika 58 (1971); Kenward & Roger, Biometrics 53 (1997).
Result<Reml> reml(const Eigen::MatrixXd& design, const Eigen::VectorXd& response,
                  const std::vector<VarianceComponent>& components, const RemlOptions& options = {});

/// Satterthwaite's degrees of freedom of contrast' b: 2 (c' Phi c)^2 / (g' W g) with g_k = c' dPhi/dtheta_k c;
/// infinity where the variance does not depend on an estimated component.
double satterthwaite_df(const Reml& fit, const Eigen::VectorXd& contrast);

/// Variance of the fixed linear estimator a'y and its degrees of freedom.
struct LinearEstimate {
  double variance = 0;  ///< a' V(theta) a
  double df = 0;        ///< 2 variance^2 / (g' W g) with g_k = a' V_k a
};
LinearEstimate linear_estimator_variance(const Eigen::VectorXd& a, const std::vector<VarianceComponent>& components,
                                         const Reml& fit);

/// Covariance A V(theta) A' of the linear estimators A y (r x n).
Eigen::MatrixXd linear_estimator_covariance(const Eigen::MatrixXd& a, const std::vector<VarianceComponent>& components,
                                            const Eigen::VectorXd& variances);

/// Generalised least squares at variances taken as known (length K): b, Phi and the restricted log likelihood as above.
struct KnownVarianceFit {
  Eigen::VectorXd coefficients;
  Eigen::MatrixXd covariance;
  double log_likelihood = 0;
};
Result<KnownVarianceFit> known_variance_fit(const Eigen::MatrixXd& design, const Eigen::VectorXd& response,
                                            const std::vector<VarianceComponent>& components,
                                            const Eigen::VectorXd& variances);

}  // namespace fitwright
