#include "model/strata.hpp"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace fitwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// The nearest matrix without negative variances in any direction, with the diagonal of `m` clipped at 0.
MatrixXd clipped(const MatrixXd& m) {
  const VectorXd wanted = m.diagonal().cwiseMax(0.0);
  VectorXd scale = wanted.cwiseSqrt();
  for (Index i = 0; i < scale.size(); ++i)
    if (scale[i] == 0) scale[i] = 1;
  MatrixXd r = scale.cwiseInverse().asDiagonal() * m * scale.cwiseInverse().asDiagonal();
  for (Index i = 0; i < r.rows(); ++i)
    if (wanted[i] == 0) {
      r.row(i).setZero();
      r.col(i).setZero();
    }
  const Eigen::SelfAdjointEigenSolver<MatrixXd> eigen(r);
  MatrixXd fixed =
      eigen.eigenvectors() * eigen.eigenvalues().cwiseMax(0.0).asDiagonal() * eigen.eigenvectors().transpose();
  for (Index i = 0; i < fixed.rows(); ++i) {
    const double got = fixed(i, i);
    const double f = got > 0 && wanted[i] > 0 ? std::sqrt(wanted[i] / got) : 0.0;
    fixed.row(i) *= f;
    fixed.col(i) *= f;
  }
  return fixed;
}

/// A_B A_B' of one stratum, with the rows' relative weights.
MatrixXd spread(const MatrixXd& influence, const std::vector<Index>& rows) {
  MatrixXd a(influence.rows(), static_cast<Index>(rows.size()));
  for (std::size_t k = 0; k < rows.size(); ++k) a.col(static_cast<Index>(k)) = influence.col(rows[k]);
  return a * a.transpose();
}

}  // namespace

TwoStratumResult two_stratum(const TwoStratumInput& in) {
  const Index p = in.influence.rows(), n = in.influence.cols(), nc = in.by_copy.cols();
  if (in.by_copy.rows() != n || in.copy_edge.size() != n || in.copy_scale.size() != n || nc < 1)
    throw std::invalid_argument("two_stratum: sizes differ");
  TwoStratumResult out;
  out.feature = MatrixXd::Zero(p, p);
  MatrixXd v2 = MatrixXd::Zero(p, p);
  VectorXd feature_sum = VectorXd::Zero(p), v2_sum = VectorXd::Zero(p);  // sums of var^2 / df
  for (const Stratum& s : in.strata) {
    const MatrixXd aa = spread(in.influence, s.rows);
    const MatrixXd v = s.variance_mm2 * aa;
    out.feature += v;
    out.by_stratum.push_back(v);
    feature_sum += (v.diagonal().array().square() / std::max(s.df, 1e-9)).matrix();
    if (nc < 2) continue;
    const MatrixXd w = s.interaction_mm2 * aa;
    v2 += w;
    if (s.interaction_df > 0) v2_sum += (w.diagonal().array().square() / s.interaction_df).matrix();
  }
  if (in.extra_variance.size() == n) {
    // A known variance of each single cell: it comes down with the number of copies, and is certain.
    const MatrixXd extra = in.influence * in.extra_variance.asDiagonal() * in.influence.transpose();
    out.feature += extra / static_cast<double>(nc);
  }
  const auto copies = static_cast<double>(nc);
  MatrixXd s = MatrixXd::Zero(p, p);
  if (nc >= 2) {
    const MatrixXd b = in.influence * in.by_copy;
    const MatrixXd centred = b.colwise() - b.rowwise().mean();
    s = centred * centred.transpose() / (copies - 1);
  }
  MatrixXd excess = s - v2;
  out.prior_used = in.prior.has_value() && nc <= 2;
  if (out.prior_used) {
    const VectorXd edge = in.influence * in.copy_edge, scale = in.influence * in.copy_scale;
    const MatrixXd pv = std::pow(in.prior->edge_sd_mm, 2) * edge * edge.transpose() +
                        std::pow(in.prior->scale_sd, 2) * scale * scale.transpose();
    const double nu = in.prior->df;
    excess = nc == 1 ? pv : MatrixXd((nu * pv + (copies - 1) * excess) / (nu + copies - 1));
  } else if (nc < 2) {
    excess.setZero();
  }
  out.copy = clipped(excess) / copies;

  out.df_feature = VectorXd::Zero(p);
  out.df_copy = VectorXd::Zero(p);
  out.df = VectorXd::Zero(p);
  for (Index i = 0; i < p; ++i) {
    const double v1 = out.feature(i, i), ex = out.copy(i, i);
    double copy_term = 0;  // ex^2 / df of ex
    if (ex > 0) {
      copy_term = out.prior_used ? ex * ex / (in.prior->df + copies - 1)
                                 : std::pow(s(i, i) / copies, 2) / (copies - 1) + v2_sum[i] / (copies * copies);
      out.df_copy[i] = ex * ex / copy_term;
    }
    out.df_feature[i] = feature_sum[i] > 0 ? v1 * v1 / feature_sum[i] : std::numeric_limits<double>::infinity();
    const double total = v1 + ex, sum = feature_sum[i] + copy_term;
    out.df[i] = sum > 0 ? total * total / sum : std::numeric_limits<double>::infinity();
  }
  return out;
}

}  // namespace fitwright
