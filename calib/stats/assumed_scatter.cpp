#include "stats/assumed_scatter.hpp"

#include <Eigen/Eigenvalues>
#include <cmath>
#include <map>
#include <stdexcept>
#include <vector>

#include "stats/intervals.hpp"

namespace fitwright {
namespace {

/// Nodes of the quadrature: enough for six digits of the half-width at 2 degrees of freedom and more.
constexpr int nodes = 96;

struct Rule {
  std::vector<double> chi_squared;  ///< nodes
  std::vector<double> weight;       ///< sum to 1
};

/// Generalised Gauss-Laguerre rule for the mean over chi-squared with `df` degrees of freedom, from the eigenvalues of
/// the Jacobi matrix (Golub and Welsch, Mathematics of Computation 23 (1969)).
Rule make_rule(double df) {
  const double alpha = df / 2 - 1;
  Eigen::VectorXd diagonal(nodes), beside(nodes - 1);
  for (int k = 0; k < nodes; ++k) diagonal[k] = 2 * k + 1 + alpha;
  for (int k = 1; k < nodes; ++k) beside[k - 1] = std::sqrt(k * (k + alpha));
  Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen;
  eigen.computeFromTridiagonal(diagonal, beside);
  Rule rule;
  for (int k = 0; k < nodes; ++k) {
    rule.chi_squared.push_back(2 * eigen.eigenvalues()[k]);
    rule.weight.push_back(std::pow(eigen.eigenvectors()(0, k), 2));
  }
  return rule;
}

const Rule& rule_for(double df) {
  thread_local std::map<double, Rule> rules;
  const auto found = rules.find(df);
  return found != rules.end() ? found->second : rules.emplace(df, make_rule(df)).first->second;
}

}  // namespace

double two_part_half_width(const TwoPartVariance& v, double level) {
  if (v.estimated < 0 || v.assumed < 0 || v.estimated + v.assumed <= 0 || !(v.assumed_df > 0) || !(v.estimated_df > 0))
    throw std::domain_error("two_part_half_width: variances and degrees of freedom must be above zero");
  if (v.assumed == 0) return coverage_factor(level, v.estimated_df) * std::sqrt(v.estimated);
  if (v.estimated == 0) return coverage_factor(level, v.assumed_df) * std::sqrt(v.assumed);
  const Rule& rule = rule_for(v.assumed_df);
  const auto chance_beyond = [&](double h) {
    double sum = 0;
    for (int k = 0; k < nodes; ++k) {
      const auto i = static_cast<std::size_t>(k);
      const double total = v.estimated + v.assumed * v.assumed_df / rule.chi_squared[i];
      const double df = v.estimated_df * std::pow(total / v.estimated, 2);  // the assumed part is certain in here
      sum += rule.weight[i] * t_two_sided_p(h / std::sqrt(total), df);
    }
    return sum;
  };
  // Regula falsi with halving (Illinois) between bounds that must hold the answer.
  double low = 0, high = 2 * (coverage_factor(level, v.estimated_df) * std::sqrt(v.estimated) +
                              coverage_factor(level, v.assumed_df) * std::sqrt(v.assumed));
  const double wanted = 1 - level;
  double at_low = 1 - wanted, at_high = chance_beyond(high) - wanted;
  int side = 0;
  double h = high;
  for (int k = 0; k < 60 && high - low > 1e-9 * high; ++k) {
    h = (low * at_high - high * at_low) / (at_high - at_low);
    const double here = chance_beyond(h) - wanted;
    if (std::abs(here) < 1e-9) break;
    if (here > 0) {
      low = h;
      at_low = here;
      if (side == 1) at_high /= 2;
      side = 1;
    } else {
      high = h;
      at_high = here;
      if (side == -1) at_low /= 2;
      side = -1;
    }
  }
  return h;
}

}  // namespace fitwright
