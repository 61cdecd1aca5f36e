#include "stats/reml_surface.hpp"

#include <Eigen/Cholesky>
#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace fitwright::detail {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Share of the whole scatter that a row keeps for itself even when every diagonal component is at 0, so that V can be
/// inverted; far below what a reading's last digit shows.
constexpr double least_row_variance = 1e-10;

/// Below this share of the readings' own size, scatter about the fixed effects is rounding of the arithmetic.
constexpr double no_scatter = 1e-13;

/// Columns of the design that leave less than this of their length are combinations of the others.
constexpr double design_rank = 1e-11;

void check_sizes(const MatrixXd& design, const VectorXd& response, const std::vector<VarianceComponent>& components) {
  const Index n = design.rows();
  const auto fail = [](const std::string& what) { throw std::invalid_argument("reml: " + what); };
  if (response.size() != n) fail("response and design differ in rows");
  if (design.cols() == 0) fail("no fixed effects");
  bool diagonal = false;
  for (const VarianceComponent& c : components) {
    if ((c.factor.size() > 0) == (c.diagonal.size() > 0)) fail(c.name + " needs a factor or a diagonal");
    if (c.factor.size() > 0 && c.factor.rows() != n) fail(c.name + " and design differ in rows");
    if (c.diagonal.size() > 0 && c.diagonal.size() != n) fail(c.name + " and design differ in rows");
    if (c.diagonal.size() > 0 && !(c.diagonal.minCoeff() >= 0)) fail(c.name + " has a weight below zero");
    if (c.prior && !(c.prior->variance > 0 && c.prior->df > 0)) fail(c.name + " has a prior that is not above zero");
    diagonal = diagonal || c.diagonal.size() > 0;
  }
  if (!diagonal) fail("no diagonal component");
}

Problem not_finite() {
  return {Code::bad_input, {}, "a reading or a design value is not a finite number", "correct that reading"};
}

Problem no_fixed_effects(Index rank, Index columns) {
  return {Code::unanswerable,
          {},
          "only " + std::to_string(rank) + " of " + std::to_string(columns) + " unknowns can be told apart",
          "measure more kinds of features, or fit fewer unknowns"};
}

Problem nothing_scatters() {
  return {Code::unanswerable,
          {},
          "the readings show no scatter at all, so none can be estimated",
          "measure more features, or state what scatter is known beforehand"};
}

}  // namespace

/// V^-1 = diag(1/row) - spread spread', P = diag(1/row) - all all' with the fixed effects' part beside.
struct RemlSurface::Inverse {
  VectorXd inverse_row;  // 1 / own variance of each row
  MatrixXd all;          // n x (q + p): first the factors' part, then the fixed effects'
  Index factor_columns = 0;
  Eigen::LLT<MatrixXd> fixed;  // of basis' V^-1 basis
  MatrixXd weighted_basis;     // V^-1 basis
  VectorXd beta;               // in the basis
  VectorXd py;                 // P y
  double log_det = 0;          // log |V|

  [[nodiscard]] MatrixXd v_inverse(const MatrixXd& m) const {
    const auto spread = all.leftCols(factor_columns);
    return inverse_row.asDiagonal() * m - spread * (spread.transpose() * m);
  }
  [[nodiscard]] MatrixXd p(const MatrixXd& m) const {
    return inverse_row.asDiagonal() * m - all * (all.transpose() * m);
  }
};

Result<RemlSurface> RemlSurface::make(const MatrixXd& design, const VectorXd& response,
                                      const std::vector<VarianceComponent>& components) {
  check_sizes(design, response, components);
  if (!design.allFinite() || !response.allFinite()) return not_finite();
  const Index n = design.rows();
  const Index p = design.cols();
  if (n < p) return no_fixed_effects(n, p);

  RemlSurface s;
  VectorXd scale = design.colwise().norm().transpose();
  scale = (scale.array() > 0).select(scale, 1.0);
  Eigen::ColPivHouseholderQR<MatrixXd> qr(n, p);
  qr.setThreshold(design_rank);
  qr.compute(design * scale.cwiseInverse().asDiagonal());
  if (qr.rank() < p) return no_fixed_effects(qr.rank(), p);
  s.basis_ = qr.householderQ() * MatrixXd::Identity(n, p);
  MatrixXd r_inverse = MatrixXd::Identity(p, p);
  qr.matrixR().topLeftCorner(p, p).triangularView<Eigen::Upper>().solveInPlace(r_inverse);
  s.to_design_ = scale.cwiseInverse().asDiagonal() * (qr.colsPermutation() * r_inverse);
  s.log_det_design_ = qr.matrixR().diagonal().head(p).cwiseAbs().array().log().sum() + scale.array().log().sum();

  const auto count = static_cast<Index>(components.size());
  VectorXd mean_diagonal(count);
  Index columns = 0;
  for (const VarianceComponent& c : components) columns += c.factor.cols();
  s.factors_.resize(n, columns);
  Index at = 0;
  for (Index k = 0; k < count; ++k) {
    const VarianceComponent& c = components[static_cast<std::size_t>(k)];
    const double trace = c.factor.size() > 0 ? c.factor.squaredNorm() : c.diagonal.sum();
    if (!std::isfinite(trace)) return not_finite();
    if (!(trace > 0)) throw std::invalid_argument("reml: " + c.name + " touches no row");
    mean_diagonal(k) = trace / static_cast<double>(n);
    Part part;
    part.first = at;
    part.columns = c.factor.cols();
    if (c.factor.size() > 0)
      s.factors_.middleCols(at, part.columns) = c.factor / std::sqrt(mean_diagonal(k));
    else
      part.diagonal = c.diagonal / mean_diagonal(k);
    if (c.prior) {
      part.prior_variance = c.prior->variance * mean_diagonal(k);  // divided by the scatter below
      part.prior_df = c.prior->df;
    }
    at += part.columns;
    s.parts_.push_back(std::move(part));
  }

  const VectorXd residual = response - s.basis_ * (s.basis_.transpose() * response);
  double variance = n > p ? residual.squaredNorm() / static_cast<double>(n - p) : 0;
  if (!(std::sqrt(variance) > no_scatter * response.norm() / std::sqrt(static_cast<double>(n)))) {
    if (!std::all_of(s.parts_.begin(), s.parts_.end(), [](const Part& part) { return part.prior_df > 0; }))
      return nothing_scatters();
    variance = 0;
    for (const Part& part : s.parts_) variance += part.prior_variance;
  }
  s.scatter_ = std::sqrt(variance);
  s.y_ = response / s.scatter_;
  s.unit_ = variance * mean_diagonal.cwiseInverse();
  for (Part& part : s.parts_) part.prior_variance /= variance;
  return s;
}

VectorXd RemlSurface::start() const {
  VectorXd theta(components());
  for (Index k = 0; k < components(); ++k)
    theta(k) =
        has_prior(k) ? parts_[static_cast<std::size_t>(k)].prior_variance : 1.0 / static_cast<double>(components());
  return theta;
}

double RemlSurface::outside_log_likelihood(double log_likelihood) const {
  const auto df = static_cast<double>(basis_.rows() - basis_.cols());
  return log_likelihood - df * std::log(scatter_) - log_det_design_;
}

VectorXd RemlSurface::row_variances(const VectorXd& theta) const {
  VectorXd row = VectorXd::Zero(basis_.rows());
  for (Index k = 0; k < components(); ++k)
    if (const Part& part = parts_[static_cast<std::size_t>(k)]; part.columns == 0) row += theta(k) * part.diagonal;
  return row;
}

bool RemlSurface::singular(const VectorXd& theta) const {
  return row_variances(theta).minCoeff() <= least_row_variance;
}

RemlSurface::Inverse RemlSurface::invert(const VectorXd& theta) const {
  const Index p = basis_.cols();
  const Index q = factors_.cols();
  const VectorXd row = row_variances(theta).cwiseMax(least_row_variance);
  VectorXd root(q);
  for (Index k = 0; k < components(); ++k) {
    const Part& part = parts_[static_cast<std::size_t>(k)];
    root.segment(part.first, part.columns).setConstant(std::sqrt(theta(k)));
  }

  Inverse v;
  v.inverse_row = row.cwiseInverse();
  v.factor_columns = q;
  v.all.resize(basis_.rows(), q + p);
  v.log_det = row.array().log().sum();
  if (q > 0) {
    const MatrixXd scaled = factors_ * root.asDiagonal();
    MatrixXd weighted = v.inverse_row.asDiagonal() * scaled;
    MatrixXd inner = scaled.transpose() * weighted;
    inner.diagonal().array() += 1;
    const Eigen::LLT<MatrixXd> llt(inner);
    v.log_det += 2 * llt.matrixLLT().diagonal().array().log().sum();
    llt.matrixU().solveInPlace<Eigen::OnTheRight>(weighted);
    v.all.leftCols(q) = weighted;
  }
  v.weighted_basis = v.v_inverse(basis_);
  v.fixed.compute(basis_.transpose() * v.weighted_basis);
  MatrixXd fixed_part = v.weighted_basis;
  v.fixed.matrixU().solveInPlace<Eigen::OnTheRight>(fixed_part);
  v.all.rightCols(p) = fixed_part;
  v.beta = v.fixed.solve(v.weighted_basis.transpose() * y_);
  v.py = v.v_inverse(y_ - basis_ * v.beta);
  return v;
}

RemlSurface::Point RemlSurface::at(const VectorXd& theta, bool with_derivatives) const {
  const Inverse v = invert(theta);
  Point point;
  const double log_det_fixed = 2 * v.fixed.matrixLLT().diagonal().array().log().sum();
  point.log_likelihood = -0.5 * (v.log_det + log_det_fixed + y_.dot(v.py));
  for (Index k = 0; k < components(); ++k) {
    const Part& part = parts_[static_cast<std::size_t>(k)];
    if (part.prior_df > 0)
      point.log_prior -= 0.5 * part.prior_df * (std::log(theta(k)) + part.prior_variance / theta(k));
  }
  if (with_derivatives) derivatives(v, theta, point);
  return point;
}

MatrixXd RemlSurface::times_v(std::size_t k, const MatrixXd& m) const {
  const Part& part = parts_[k];
  if (part.columns == 0) return part.diagonal.asDiagonal() * m;
  const auto z = factors_.middleCols(part.first, part.columns);
  return z * (z.transpose() * m);
}

// Score 0.5 (y'P V_k P y - tr P V_k); expected information 0.5 tr(P V_k P V_l); observed y'P V_k P V_l P y minus that.
// Traces come from P in factored form, so that nothing is n x n.
void RemlSurface::derivatives(const Inverse& v, const VectorXd& theta, Point& point) const {
  const Index count = components();
  const MatrixXd pz = factors_.cols() > 0 ? v.p(factors_) : MatrixXd(basis_.rows(), 0);
  const MatrixXd zpz = factors_.transpose() * pz;
  const VectorXd used = v.all.rowwise().squaredNorm();
  const VectorXd p_diagonal = v.inverse_row - used;

  std::vector<MatrixXd> inner(parts_.size());  // all' diag(d_k) all
  MatrixXd moved(basis_.rows(), count);        // V_k P y
  point.score.resize(count);
  for (Index k = 0; k < count; ++k) {
    const Part& part = parts_[static_cast<std::size_t>(k)];
    moved.col(k) = times_v(static_cast<std::size_t>(k), v.py);
    double trace = 0;
    if (part.columns == 0) {
      inner[static_cast<std::size_t>(k)] = v.all.transpose() * (part.diagonal.asDiagonal() * v.all);
      trace = part.diagonal.dot(p_diagonal);
    } else {
      trace = zpz.diagonal().segment(part.first, part.columns).sum();
    }
    point.score(k) = 0.5 * (v.py.dot(moved.col(k)) - trace);
  }

  point.expected.resize(count, count);
  for (Index k = 0; k < count; ++k)
    for (Index l = 0; l <= k; ++l) {
      const Part& a = parts_[static_cast<std::size_t>(k)];
      const Part& b = parts_[static_cast<std::size_t>(l)];
      double trace = 0;
      if (a.columns > 0 && b.columns > 0) {
        trace = zpz.block(a.first, b.first, a.columns, b.columns).squaredNorm();
      } else if (a.columns == 0 && b.columns == 0) {
        const VectorXd both = a.diagonal.cwiseProduct(b.diagonal).cwiseProduct(v.inverse_row);
        trace = both.dot(v.inverse_row - 2 * used) +
                inner[static_cast<std::size_t>(k)].cwiseProduct(inner[static_cast<std::size_t>(l)]).sum();
      } else {
        const Part& diagonal = a.columns == 0 ? a : b;
        const Part& factor = a.columns == 0 ? b : a;
        trace = diagonal.diagonal.dot(pz.middleCols(factor.first, factor.columns).rowwise().squaredNorm());
      }
      point.expected(k, l) = point.expected(l, k) = 0.5 * trace;
    }
  point.observed = moved.transpose() * v.p(moved) - point.expected;

  for (Index k = 0; k < count; ++k) {
    const Part& part = parts_[static_cast<std::size_t>(k)];
    if (!(part.prior_df > 0)) continue;
    const double t = theta(k);
    const double half = 0.5 * part.prior_df / (t * t);
    point.score(k) -= half * (t - part.prior_variance);
    point.expected(k, k) += half;
    point.observed(k, k) += half * (2 * part.prior_variance / t - 1);
  }
}

void RemlSurface::report(const VectorXd& theta, const MatrixXd& w, Reml& fit) const {
  const Inverse v = invert(theta);
  const Index p = basis_.cols();
  const auto count = parts_.size();
  const MatrixXd phi = v.fixed.solve(MatrixXd::Identity(p, p));
  const double variance = scatter_ * scatter_;
  const auto outward = [&](const MatrixXd& m) { return MatrixXd(to_design_ * m * to_design_.transpose()); };

  fit.coefficients = scatter_ * (to_design_ * v.beta);
  fit.covariance = variance * outward(phi);
  fit.variance_covariance = unit_.asDiagonal() * w * unit_.asDiagonal();

  std::vector<MatrixXd> spread(count);  // V_k V^-1 basis
  std::vector<MatrixXd> first(count);   // basis' V^-1 V_k V^-1 basis
  fit.sensitivity.clear();
  fit.effects.assign(count, VectorXd());
  for (std::size_t k = 0; k < count; ++k) {
    const auto at = static_cast<Index>(k);
    spread[k] = times_v(k, v.weighted_basis);
    first[k] = v.weighted_basis.transpose() * spread[k];
    fit.sensitivity.push_back(variance / unit_(at) * outward(phi * first[k] * phi));
    if (parts_[k].columns > 0)
      fit.effects[k] = theta(at) * scatter_ * std::sqrt(unit_(at) / variance) *
                       (factors_.middleCols(parts_[k].first, parts_[k].columns).transpose() * v.py);
  }

  // Kenward & Roger (1997), with V linear in the variances: Lambda = sum W_kl (Q_kl - P_k Phi P_l).
  MatrixXd lambda = MatrixXd::Zero(p, p);
  for (std::size_t l = 0; l < count; ++l) {
    if (w.col(static_cast<Index>(l)).isZero(0)) continue;
    const MatrixXd inverse_spread = v.v_inverse(spread[l]);
    for (std::size_t k = 0; k < count; ++k)
      lambda += w(static_cast<Index>(k), static_cast<Index>(l)) *
                (spread[k].transpose() * inverse_spread - first[k] * phi * first[l]);
  }
  fit.kenward_roger = variance * outward(phi + 2 * phi * lambda * phi);
  fit.kenward_roger = 0.5 * (fit.kenward_roger + fit.kenward_roger.transpose()).eval();
}

}  // namespace fitwright::detail
