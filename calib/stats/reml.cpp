#include "stats/reml.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "stats/reml_surface.hpp"

namespace fitwright {
namespace {

using detail::RemlSurface;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using Free = std::vector<Index>;  // components that may move

constexpr double infinity = std::numeric_limits<double>::infinity();

/// Scoring steps before the observed information is trusted for the direction.
constexpr int scoring_steps = 2;

/// A step is halved down to this share of itself before it is given up.
constexpr double least_share = 1e-10;

/// Rounding in the log likelihood, relative.
constexpr double rounding_share = 1e-11;

/// A variance below this share of the sum of all is followed to that share, not to its own size.
constexpr double small_component = 1e-4;

/// A component with a prior keeps at least this share of its value in one step: at 0 its prior has no value.
constexpr double least_share_of_step = 0.1;

/// Eigenvalue of the information (scaled to a diagonal of 1) below which components count as one and the same.
constexpr double same_component = 1e-9;

/// Share of the information that a variance at the size of the scatter would have with one degree of freedom (0.5)
/// below which the data say nothing about it.
constexpr double no_information = 1e-9;

Problem cannot_separate(const std::vector<VarianceComponent>& components, const std::vector<bool>& concerned) {
  std::string names;
  for (std::size_t k = 0; k < components.size(); ++k)
    if (concerned[k]) names += (names.empty() ? "" : ", ") + components[k].name;
  return {Code::unanswerable,
          {},
          "the data cannot tell the size of this scatter: " + names,
          "print more copies or take more readings, or state what is known beforehand"};
}

Problem explained_exactly() {
  return {Code::unanswerable,
          {},
          "the shared effects explain the readings exactly, so the scatter of a single one cannot be told",
          "take more readings, or state what is known beforehand"};
}

/// Names the components whose size the data and priors cannot tell; empty when all can.
std::optional<Problem> inseparable(const MatrixXd& information, const std::vector<VarianceComponent>& components) {
  const Index count = information.rows();
  std::vector<bool> concerned(static_cast<std::size_t>(count), false);
  for (Index k = 0; k < count; ++k) concerned[static_cast<std::size_t>(k)] = !(information(k, k) > no_information);
  if (std::find(concerned.begin(), concerned.end(), true) != concerned.end())
    return cannot_separate(components, concerned);
  const VectorXd root = information.diagonal().cwiseSqrt().cwiseInverse();
  const Eigen::SelfAdjointEigenSolver<MatrixXd> eigen(root.asDiagonal() * information * root.asDiagonal());
  if (eigen.eigenvalues()(0) > same_component) return std::nullopt;
  constexpr double share = 0.05;  // of the direction: components that take part in it
  for (Index k = 0; k < count; ++k)
    concerned[static_cast<std::size_t>(k)] = std::fabs(eigen.eigenvectors()(k, 0)) > share;
  return cannot_separate(components, concerned);
}

VectorXd direction(const RemlSurface::Point& point, const Free& free, Index count, bool trust_observed) {
  const VectorXd score = point.score(free);
  VectorXd step;
  const Eigen::LLT<MatrixXd> observed(MatrixXd(point.observed(free, free)));
  if (trust_observed && observed.info() == Eigen::Success)
    step = observed.solve(score);
  else
    step = Eigen::LDLT<MatrixXd>(MatrixXd(point.expected(free, free))).solve(score);
  VectorXd full = VectorXd::Zero(count);
  full(free) = step;
  return full;
}

/// theta + share * step kept where the likelihood and priors have a value.
VectorXd moved(const RemlSurface& surface, const VectorXd& theta, const VectorXd& step, double share) {
  VectorXd next = theta + share * step;
  for (Index k = 0; k < next.size(); ++k)
    next(k) = std::max(next(k), surface.has_prior(k) ? least_share_of_step * theta(k) : 0.0);
  return next;
}

struct Climb {
  VectorXd theta;
  RemlSurface::Point point;
  int iterations = 0;
  RemlEnd end = RemlEnd::iteration_limit;
};

/// The components that may move: those at 0 only if the likelihood rises from there.
Free free_of(const VectorXd& theta, const VectorXd& score) {
  Free free;
  for (Index k = 0; k < theta.size(); ++k)
    if (theta(k) > 0 || score(k) > 0) free.push_back(k);
  return free;
}

Climb climb(const RemlSurface& surface, Climb c, const RemlOptions& options) {
  double last_size = infinity;
  for (c.iterations = 1; c.iterations <= options.most_iterations; ++c.iterations) {
    const Free free = free_of(c.theta, c.point.score);
    if (free.empty()) {
      c.end = RemlEnd::converged;
      return c;
    }
    const VectorXd step = direction(c.point, free, surface.components(), c.iterations > scoring_steps);
    const double rounding = rounding_share * (1 + std::fabs(c.point.height()));
    // Where the gain to come is below rounding, the height can no longer judge a step, but the score still points.
    const bool judged = c.point.score.dot(step) > rounding;
    VectorXd next = moved(surface, c.theta, step, 1);
    double share = 1;
    while (judged && surface.at(next, false).height() < c.point.height() - rounding) {
      share *= 0.5;
      if (share < least_share) {
        c.end = RemlEnd::stalled;
        return c;
      }
      next = moved(surface, c.theta, step, share);
    }
    const VectorXd scale = c.theta.array() + small_component * c.theta.sum();
    const double size = (next - c.theta).cwiseQuotient(scale).cwiseAbs().maxCoeff();
    c.theta = next;
    c.point = surface.at(next, true);
    if (share == 1 && (size <= options.relative_step || (!judged && size >= last_size))) {
      c.end = RemlEnd::converged;
      return c;
    }
    last_size = judged ? infinity : size;
  }
  c.iterations = options.most_iterations;
  return c;
}

double variance_from(const VectorXd& a, const VarianceComponent& c) {
  return c.factor.size() > 0 ? (c.factor.transpose() * a).squaredNorm() : c.diagonal.dot(a.cwiseAbs2());
}

double df_of(double variance, const VectorXd& gradient, const MatrixXd& w) {
  const double spread = gradient.dot(w * gradient);
  return spread > 0 ? 2 * variance * variance / spread : infinity;
}

}  // namespace

VarianceComponent grouped_component(std::string name, const std::vector<int>& level, const VectorXd& slope) {
  const auto n = static_cast<Index>(level.size());
  if (n == 0) throw std::invalid_argument("grouped_component: no rows");
  if (slope.size() > 0 && slope.size() != n) throw std::invalid_argument("grouped_component: levels and slope differ");
  VarianceComponent c;
  c.name = std::move(name);
  c.factor = MatrixXd::Zero(n, *std::max_element(level.begin(), level.end()) + 1);
  for (Index i = 0; i < n; ++i)
    if (const int at = level[static_cast<std::size_t>(i)]; at >= 0) c.factor(i, at) = slope.size() > 0 ? slope(i) : 1.0;
  return c;
}

VarianceComponent diagonal_component(std::string name, VectorXd weight) {
  VarianceComponent c;
  c.name = std::move(name);
  c.diagonal = std::move(weight);
  return c;
}

Result<Reml> reml(const MatrixXd& design, const VectorXd& response, const std::vector<VarianceComponent>& components,
                  const RemlOptions& options) {
  const Result<RemlSurface> made = RemlSurface::make(design, response, components);
  if (!made) return made.problems();
  const RemlSurface& surface = *made;

  Climb c;
  c.theta = surface.start();
  c.point = surface.at(c.theta, true);
  if (auto problem = inseparable(c.point.expected, components)) return *problem;
  c = climb(surface, std::move(c), options);
  if (surface.singular(c.theta)) return explained_exactly();

  Reml fit;
  fit.iterations = c.iterations;
  fit.end = c.end;
  fit.variances = surface.outside(c.theta);
  fit.log_likelihood = surface.outside_log_likelihood(c.point.log_likelihood);
  Free free;
  for (std::size_t k = 0; k < components.size(); ++k) {
    const auto at = static_cast<Index>(k);
    fit.at_zero.push_back(c.theta(at) == 0);
    if (!fit.at_zero.back()) free.push_back(at);
    if (components[k].prior)
      fit.log_prior -= 0.5 * components[k].prior->df *
                       (std::log(fit.variances(at)) + components[k].prior->variance / fit.variances(at));
  }
  MatrixXd w = MatrixXd::Zero(surface.components(), surface.components());
  if (!free.empty()) {
    const MatrixXd information = c.point.expected(free, free);
    const MatrixXd inverse = information.ldlt().solve(MatrixXd::Identity(information.rows(), information.cols()));
    w(free, free) = inverse;
  }
  surface.report(c.theta, w, fit);
  return fit;
}

double satterthwaite_df(const Reml& fit, const VectorXd& contrast) {
  VectorXd gradient(fit.variances.size());
  for (Index k = 0; k < gradient.size(); ++k)
    gradient(k) = contrast.dot(fit.sensitivity[static_cast<std::size_t>(k)] * contrast);
  return df_of(contrast.dot(fit.covariance * contrast), gradient, fit.variance_covariance);
}

LinearEstimate linear_estimator_variance(const VectorXd& a, const std::vector<VarianceComponent>& components,
                                         const Reml& fit) {
  VectorXd gradient(fit.variances.size());
  for (Index k = 0; k < gradient.size(); ++k)
    gradient(k) = variance_from(a, components.at(static_cast<std::size_t>(k)));
  LinearEstimate out;
  out.variance = gradient.dot(fit.variances);
  out.df = df_of(out.variance, gradient, fit.variance_covariance);
  return out;
}

MatrixXd linear_estimator_covariance(const MatrixXd& a, const std::vector<VarianceComponent>& components,
                                     const VectorXd& variances) {
  MatrixXd covariance = MatrixXd::Zero(a.rows(), a.rows());
  for (std::size_t k = 0; k < components.size(); ++k) {
    const double theta = variances(static_cast<Index>(k));
    if (components[k].factor.size() > 0) {
      const MatrixXd az = a * components[k].factor;
      covariance += theta * az * az.transpose();
    } else {
      covariance += theta * a * components[k].diagonal.asDiagonal() * a.transpose();
    }
  }
  return covariance;
}

Result<KnownVarianceFit> known_variance_fit(const MatrixXd& design, const VectorXd& response,
                                            const std::vector<VarianceComponent>& components,
                                            const VectorXd& variances) {
  const Result<RemlSurface> made = RemlSurface::make(design, response, components);
  if (!made) return made.problems();
  const VectorXd theta = made->inside(variances);
  Reml fit;
  made->report(theta, MatrixXd::Zero(made->components(), made->components()), fit);
  KnownVarianceFit out;
  out.coefficients = fit.coefficients;
  out.covariance = fit.covariance;
  out.log_likelihood = made->outside_log_likelihood(made->at(theta, false).log_likelihood);
  return out;
}

}  // namespace fitwright
