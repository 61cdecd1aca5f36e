#include "fits/ordinal.hpp"

#include <Eigen/Cholesky>
#include <cmath>
#include <limits>

#include "stats/intervals.hpp"

namespace fitwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr int most_steps = 100;
constexpr int most_halvings = 40;
/// Newton's decrement below which the maximum is reached: the log likelihood is within half of it.
constexpr double converged = 1e-22;
/// A predictor so far out that the data separate: the estimates run away.
constexpr double runaway_decrease = 1e-9;

/// log(exp(a) - exp(b)), a > b.
double log_difference(double a, double b) {
  const double d = b - a;
  return a + (d > -0.6931471805599453 ? std::log(-std::expm1(d)) : std::log1p(-std::exp(d)));
}

/// log P(lower < latent <= upper) from the tail where it keeps its digits.
double log_between(const LinkPoint& lower, const LinkPoint& upper) {
  return lower.log_below < upper.log_above ? log_difference(upper.log_below, lower.log_below)
                                           : log_difference(lower.log_above, upper.log_above);
}

}  // namespace

OrdinalPoint ordinal_at(const OrdinalData& data, Link link, const VectorXd& parameters) {
  const Index k = data.categories - 1, p = data.x.cols(), n = data.x.rows();
  OrdinalPoint out;
  out.gradient = VectorXd::Zero(k + p);
  out.hessian = MatrixXd::Zero(k + p, k + p);
  for (Index j = 1; j < k; ++j)
    if (!(parameters[j] > parameters[j - 1])) {
      out.log_likelihood = -std::numeric_limits<double>::infinity();
      return out;
    }
  VectorXd by_upper(k + p), by_lower(k + p);
  for (Index i = 0; i < n; ++i) {
    const double w = data.weight.size() ? data.weight[i] : 1.0;
    if (w == 0) continue;
    const int y = data.category[static_cast<std::size_t>(i)];
    const double eta = p ? data.x.row(i).dot(parameters.tail(p)) : 0.0;
    const bool has_upper = y<k, has_lower = y> 0;
    const LinkPoint upper = has_upper ? at_point(link, parameters[y] - eta) : LinkPoint{};
    const LinkPoint lower = has_lower ? at_point(link, parameters[y - 1] - eta) : LinkPoint{};
    const double log_p = !has_lower ? upper.log_below : !has_upper ? lower.log_above : log_between(lower, upper);
    out.log_likelihood += w * log_p;
    double a = 0, aa = 0, b = 0, bb = 0;  // first and second derivatives of log p by the upper and lower bound
    if (has_upper) {
      a = std::exp(upper.log_density - log_p);
      aa = a * upper.density_slope - a * a;
      by_upper.setZero();
      by_upper[y] = 1;
      by_upper.tail(p) = -data.x.row(i).transpose();
      out.gradient += w * a * by_upper;
      out.hessian += w * aa * by_upper * by_upper.transpose();
    }
    if (has_lower) {
      b = -std::exp(lower.log_density - log_p);
      bb = b * lower.density_slope - b * b;
      by_lower.setZero();
      by_lower[y - 1] = 1;
      by_lower.tail(p) = -data.x.row(i).transpose();
      out.gradient += w * b * by_lower;
      out.hessian += w * bb * by_lower * by_lower.transpose();
    }
    if (has_upper && has_lower)
      out.hessian -= w * a * b * (by_upper * by_lower.transpose() + by_lower * by_upper.transpose());
  }
  return out;
}

Result<OrdinalFit> fit_ordinal(const OrdinalData& data, Link link) {
  const Index k = data.categories - 1, p = data.x.cols();
  const auto no_maximum = [](const std::string& why) {
    return Problem{Code::unanswerable, {}, "the fit has no finite maximum: " + why, "use the weak prior, or more data"};
  };
  std::vector<double> seen(static_cast<std::size_t>(data.categories));
  double all = 0;
  for (Index i = 0; i < data.x.rows(); ++i) {
    const double w = data.weight.size() ? data.weight[i] : 1.0;
    seen[static_cast<std::size_t>(data.category[static_cast<std::size_t>(i)])] += w;
    all += w;
  }
  OrdinalFit fit;
  fit.parameters = VectorXd::Zero(k + p);
  double below = 0;
  for (Index j = 0; j < k; ++j) {
    if (seen[static_cast<std::size_t>(j)] == 0 || seen.back() == 0) return no_maximum("a category was never chosen");
    below += seen[static_cast<std::size_t>(j)];
    fit.parameters[j] = normal_quantile(below / all);
  }
  OrdinalPoint here = ordinal_at(data, link, fit.parameters);
  for (fit.steps = 0; fit.steps < most_steps; ++fit.steps) {
    const Eigen::LDLT<MatrixXd> information(-here.hessian);
    if (information.info() != Eigen::Success || !information.isPositive() ||
        information.vectorD().minCoeff() <= runaway_decrease * runaway_decrease * information.vectorD().maxCoeff())
      return no_maximum("categories separate perfectly, or columns depend on each other");
    const VectorXd step = information.solve(here.gradient);
    const double decrement = here.gradient.dot(step);
    double part = 1;
    OrdinalPoint next = ordinal_at(data, link, fit.parameters + step);
    for (int h = 0;
         h < most_halvings && !(next.log_likelihood >= here.log_likelihood - 1e-12 * std::abs(here.log_likelihood));
         ++h) {
      part /= 2;
      next = ordinal_at(data, link, fit.parameters + part * step);
    }
    fit.parameters += part * step;
    here = std::move(next);
    if (decrement < converged) break;
  }
  if (fit.steps == most_steps || here.log_likelihood > -runaway_decrease)
    return no_maximum("categories separate perfectly");
  fit.log_likelihood = here.log_likelihood;
  fit.covariance = Eigen::LDLT<MatrixXd>(-here.hessian).solve(MatrixXd::Identity(k + p, k + p));
  return fit;
}

}  // namespace fitwright
