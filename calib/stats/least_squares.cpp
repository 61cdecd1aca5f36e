#include "stats/least_squares.hpp"

#include <Eigen/QR>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>

#include "base/number.hpp"

namespace fitwright {
namespace {

using Index = Eigen::Index;
using Qr = Eigen::ColPivHouseholderQR<ExtendedMatrix>;

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

/// A row whose leverage is nearer to 1 than this fits itself: its residual is rounding and says nothing.
constexpr long double self_fitting = 1e-12L;

/// The columns can express a constant when the part of it outside their span is below this share of its length.
constexpr long double constant_share = 1e-10L;

Problem at_row(Index row, std::string what) {
  return {Code::bad_input, {}, "row " + std::to_string(row + 1) + ": " + std::move(what), "give a finite number there"};
}

Problems check_values(const ExtendedMatrix& design, const ExtendedVector& response, const Eigen::VectorXd& weights) {
  Problems problems;
  for (Index i = 0; i < design.rows(); ++i) {
    if (!design.row(i).allFinite() || !std::isfinite(response(i)))
      problems.push_back(at_row(i, "a value is not a finite number"));
    if (weights.size() > 0 && !(weights(i) > 0 && std::isfinite(weights(i))))
      problems.push_back(at_row(i, "the weight " + shortest(weights(i)) + " is not above zero"));
  }
  return problems;
}

Problem rank_problem(Index rank, Index columns, Index rows) {
  return {Code::unanswerable,
          {},
          "only " + std::to_string(rank) + " of " + std::to_string(columns) +
              " unknowns can be told apart from these " + std::to_string(rows) + " rows",
          "measure more kinds of features, or fit fewer unknowns"};
}

/// Deletion diagnostics of each row from its weighted residual and leverage.
void fill_diagnostics(const ExtendedVector& weighted_residuals, const ExtendedVector& leverage, long double rss,
                      LeastSquares& fit) {
  const Index n = weighted_residuals.size();
  const long double p = fit.rank;
  fit.leverage = leverage.cast<double>();
  for (Eigen::VectorXd* v :
       {&fit.internally_studentised, &fit.externally_studentised, &fit.cooks_distance, &fit.dffits})
    v->setConstant(n, not_a_number);
  if (fit.df == 0) return;
  const long double s2 = rss / fit.df;
  for (Index i = 0; i < n; ++i) {
    const long double h = leverage(i);
    const long double rest = 1 - h;
    if (rest < self_fitting || !(s2 > 0)) continue;
    const long double e = weighted_residuals(i);
    const long double internal = e / std::sqrt(s2 * rest);
    fit.internally_studentised(i) = static_cast<double>(internal);
    fit.cooks_distance(i) = static_cast<double>(internal * internal * h / (p * rest));
    if (fit.df < 2) continue;
    const long double rss_without = rss - e * e / rest;
    if (!(rss_without > 0)) continue;
    const long double external = e / std::sqrt(rss_without / (fit.df - 1) * rest);
    fit.externally_studentised(i) = static_cast<double>(external);
    fit.dffits(i) = static_cast<double>(external * std::sqrt(h / rest));
  }
}

/// (X'X)^-1 of the unscaled columns from the factor R of the scaled and permuted ones.
ExtendedMatrix inverse_gram(const Qr& qr, const ExtendedVector& scale) {
  const Index p = scale.size();
  ExtendedMatrix r_inverse = ExtendedMatrix::Identity(p, p);
  qr.matrixR().topLeftCorner(p, p).triangularView<Eigen::Upper>().solveInPlace(r_inverse);
  const ExtendedMatrix rows = scale.cwiseInverse().asDiagonal() * (qr.colsPermutation() * r_inverse);
  return rows * rows.transpose();
}

}  // namespace

Result<LeastSquares> least_squares(const ExtendedMatrix& design, const ExtendedVector& response,
                                   const LeastSquaresOptions& options) {
  const Index n = design.rows();
  const Index p = design.cols();
  if (response.size() != n) throw std::invalid_argument("least_squares: response and design differ in rows");
  if (p == 0) throw std::invalid_argument("least_squares: no columns");
  const bool weighted = options.weights.size() > 0;
  if (weighted && options.weights.size() != n) throw std::invalid_argument("least_squares: weights and design differ");
  if (Problems problems = check_values(design, response, options.weights); !problems.empty()) return problems;
  if (n < p) return rank_problem(n, p, n);

  ExtendedMatrix x = design;
  ExtendedVector y = response;
  ExtendedVector root_weight = ExtendedVector::Ones(n);
  if (weighted) {
    root_weight = options.weights.cast<long double>().cwiseSqrt();
    x = root_weight.asDiagonal() * x;
    y = root_weight.asDiagonal() * y;
  }
  ExtendedVector scale = x.colwise().norm().transpose();
  for (Index j = 0; j < p; ++j) {
    if (!(scale(j) > 0)) scale(j) = 1;  // a column of zeros stays one, and is found by the rank
    x.col(j) /= scale(j);
  }

  Qr qr(n, p);
  qr.setThreshold(static_cast<long double>(options.rank_tolerance));
  qr.compute(x);
  if (qr.rank() < p) return rank_problem(qr.rank(), p, n);

  ExtendedVector b = qr.solve(y);
  ExtendedVector e = y - x * b;
  b += qr.solve(e);
  e = y - x * b;

  LeastSquares fit;
  fit.rank = static_cast<int>(p);
  fit.df = static_cast<int>(n - p);
  fit.coefficients = b.cwiseQuotient(scale).cast<double>();
  fit.residuals = e.cwiseQuotient(root_weight).cast<double>();
  fit.fitted = (response - e.cwiseQuotient(root_weight)).cast<double>();
  const long double rss = e.squaredNorm();
  fit.residual_sum_of_squares = static_cast<double>(rss);
  fit.residual_sd = fit.df > 0 ? static_cast<double>(std::sqrt(rss / fit.df)) : not_a_number;

  const ExtendedMatrix gram = inverse_gram(qr, scale);
  fit.unscaled_covariance = gram.cast<double>();
  fit.standard_errors = gram.diagonal().cwiseSqrt().cast<double>() * fit.residual_sd;

  const ExtendedMatrix q = qr.householderQ() * ExtendedMatrix::Identity(n, p);
  const ExtendedVector outside = root_weight - q * (q.transpose() * root_weight);
  fit.has_constant = outside.norm() < constant_share * root_weight.norm();
  const bool about_mean =
      options.r_squared == RSquared::about_mean || (options.r_squared == RSquared::automatic && fit.has_constant);
  const long double mean = about_mean ? root_weight.dot(y) / root_weight.squaredNorm() : 0.0L;
  const long double total = (y - mean * root_weight).squaredNorm();
  fit.total_sum_of_squares = static_cast<double>(total);
  fit.r_squared = total > 0 ? static_cast<double>(1 - rss / total) : not_a_number;

  fill_diagnostics(e, q.rowwise().squaredNorm(), rss, fit);
  return fit;
}

Result<LeastSquares> least_squares(const Eigen::MatrixXd& design, const Eigen::VectorXd& response,
                                   const LeastSquaresOptions& options) {
  return least_squares(ExtendedMatrix(design.cast<long double>()), ExtendedVector(response.cast<long double>()),
                       options);
}

}  // namespace fitwright
