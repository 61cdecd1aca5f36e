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

/// Nodes below this weight cannot move the chance in its ninth digit.
constexpr double negligible_weight = 1e-11;

/// The half-width is found to about eight digits; four steps do as a rule.
constexpr int most_steps = 60;
constexpr double relative_step = 1e-9;
constexpr double log_chance_step = 1e-8;

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
    const double weight = std::pow(eigen.eigenvectors()(0, k), 2);
    if (weight < negligible_weight) continue;
    rule.chi_squared.push_back(2 * eigen.eigenvalues()[k]);
    rule.weight.push_back(weight);
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
    for (std::size_t i = 0; i < rule.weight.size(); ++i) {
      const double total = v.estimated + v.assumed * v.assumed_df / rule.chi_squared[i];
      const double df = v.estimated_df * std::pow(total / v.estimated, 2);  // the assumed part is certain in here
      sum += rule.weight[i] * t_two_sided_p(h / std::sqrt(total), df);
    }
    return sum;
  };
  // Secant steps on the logarithm of the chance, which falls nearly straight; kept within bounds that hold the answer.
  const double wanted = std::log(1 - level);
  double low = std::max(coverage_factor(level, v.estimated_df) * std::sqrt(v.estimated),
                        coverage_factor(level, v.assumed_df) * std::sqrt(v.assumed));
  double high = coverage_factor(level, v.estimated_df) * std::sqrt(v.estimated) +
                coverage_factor(level, v.assumed_df) * std::sqrt(v.assumed);
  double at_low = std::log(chance_beyond(low)) - wanted, at_high = std::log(chance_beyond(high)) - wanted;
  double h = low;
  for (int k = 0; k < most_steps && high - low > relative_step * high; ++k) {
    h = low + (high - low) * at_low / (at_low - at_high);
    const double here = std::log(chance_beyond(h)) - wanted;
    if (std::abs(here) < log_chance_step) break;
    if (here > 0) {
      low = h;
      at_low = here;
    } else {
      high = h;
      at_high = here;
    }
  }
  return h;
}

}  // namespace fitwright
