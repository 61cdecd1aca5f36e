#pragma once
// The restricted likelihood as a function of the variances: value, score, information. Internal to reml.cpp.

#include <Eigen/Core>
#include <vector>

#include "base/result.hpp"
#include "stats/reml.hpp"

namespace fitwright::detail {

/// Working units: y is divided by its scatter about the fixed effects, every V_k by its mean diagonal, and X is
/// replaced by an orthonormal basis of its columns. Variances there are of order 1 whatever the units of the data.
class RemlSurface {
 public:
  static Result<RemlSurface> make(const Eigen::MatrixXd& design, const Eigen::VectorXd& response,
                                  const std::vector<VarianceComponent>& components);

  /// Everything at one theta (working units).
  struct Point {
    double log_likelihood = 0;
    double log_prior = 0;
    Eigen::VectorXd score;     // of log_likelihood + log_prior
    Eigen::MatrixXd expected;  // information, prior included
    Eigen::MatrixXd observed;
    [[nodiscard]] double height() const { return log_likelihood + log_prior; }
  };

  [[nodiscard]] Point at(const Eigen::VectorXd& theta, bool with_derivatives) const;

  /// Where to start: at the priors, and the scatter shared out equally among the rest.
  [[nodiscard]] Eigen::VectorXd start() const;

  /// Whether some row has no scatter of its own left: V cannot be inverted there but for the floor.
  [[nodiscard]] bool singular(const Eigen::VectorXd& theta) const;

  /// From and to the units of the data.
  [[nodiscard]] Eigen::VectorXd outside(const Eigen::VectorXd& theta) const { return theta.cwiseProduct(unit_); }
  [[nodiscard]] Eigen::VectorXd inside(const Eigen::VectorXd& variances) const {
    return variances.cwiseQuotient(unit_);
  }
  [[nodiscard]] double outside_log_likelihood(double log_likelihood) const;

  /// Coefficients, covariances, sensitivities and effects in the units of the data; `information_inverse` is W in
  /// working units.
  void report(const Eigen::VectorXd& theta, const Eigen::MatrixXd& information_inverse, Reml& fit) const;

  [[nodiscard]] Eigen::Index components() const { return static_cast<Eigen::Index>(parts_.size()); }
  [[nodiscard]] bool has_prior(Eigen::Index k) const { return parts_[static_cast<std::size_t>(k)].prior_df > 0; }

 private:
  struct Part {
    Eigen::Index first = 0;    // columns of factors_
    Eigen::Index columns = 0;  // 0: diagonal
    Eigen::VectorXd diagonal;
    double prior_variance = 0;
    double prior_df = 0;
  };
  struct Inverse;  // V^-1 and P in factored form

  RemlSurface() = default;
  [[nodiscard]] Eigen::VectorXd row_variances(const Eigen::VectorXd& theta) const;
  [[nodiscard]] Inverse invert(const Eigen::VectorXd& theta) const;
  [[nodiscard]] Eigen::MatrixXd times_v(std::size_t k, const Eigen::MatrixXd& m) const;
  void derivatives(const Inverse& v, const Eigen::VectorXd& theta, Point& point) const;

  Eigen::MatrixXd basis_;      // orthonormal columns of X, n x p
  Eigen::MatrixXd to_design_;  // coefficients of X from those of basis_, p x p
  double log_det_design_ = 0;  // log |R|, X = basis R
  Eigen::VectorXd y_;
  Eigen::MatrixXd factors_;  // of all components side by side, n x q
  std::vector<Part> parts_;
  Eigen::VectorXd unit_;  // variance of the data for theta = 1, by component
  double scatter_ = 1;    // y = y_ * scatter
};

}  // namespace fitwright::detail
