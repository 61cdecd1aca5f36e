#pragma once
// Scatter in two strata: between features about the model, and between copies. Balanced tables (every feature on every
// copy); closed form, exact for one block without priors, and moderated by a prior for one or two copies.
//
//   v1   = sum over blocks of s_B^2 A_B A_B'            (feature means about the model, df nf - p)
//   S    = sample covariance of the estimates of single copies, b_c = A y_c
//   v2   = sum over blocks of s_I^2 A_B A_B'            (feature x copy interaction, df (nf - p)(nc - 1))
//   ex   = max(0, S - v2) / nc                          (copy scatter beyond it)
//   cov  = v1 + ex,   df by Welch-Satterthwaite (JCGM 100:2008, G.4.1).
// With one or two copies S is moderated by (or replaced by) the prior of copy scatter; see docs/mathematics.md.

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "model/copy_prior.hpp"

namespace fitwright {

/// Rows that share a residual variance.
struct Stratum {
  std::vector<Eigen::Index> rows;
  double variance_mm2 = 0;  ///< s_B^2 of a feature's mean over the copies
  double df = 0;
  double interaction_mm2 = 0;  ///< s_I^2 of one cell; 0 with one copy
  double interaction_df = 0;
};

struct TwoStratumInput {
  Eigen::MatrixXd influence;  ///< A: parameters x rows
  Eigen::MatrixXd by_copy;    ///< y: rows x copies, mm
  std::vector<Stratum> strata;
  Eigen::VectorXd copy_edge;       ///< d y / d edge growth of a copy, per row
  Eigen::VectorXd copy_scale;      ///< d y / d scale of a copy, per row
  Eigen::VectorXd extra_variance;  ///< known variance of a row beyond its stratum's, mm2 (empty: none)
  std::optional<CopyPrior> prior;  ///< used with one or two copies
};

struct TwoStratumResult {
  Eigen::MatrixXd feature;                  ///< v1
  std::vector<Eigen::MatrixXd> by_stratum;  ///< v1 of each stratum, in the order of the input
  Eigen::MatrixXd copy;                     ///< ex
  Eigen::VectorXd df_feature;               ///< of the diagonal of v1
  Eigen::VectorXd df_copy;                  ///< of the diagonal of ex (0 where ex is 0)
  Eigen::VectorXd df;                       ///< of the diagonal of v1 + ex
  bool prior_used = false;
};

/// Throws std::invalid_argument on sizes that do not match (a defect in the caller).
TwoStratumResult two_stratum(const TwoStratumInput& input);

}  // namespace fitwright
