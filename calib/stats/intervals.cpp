#include "stats/intervals.hpp"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace fitwright {
namespace {

namespace bm = boost::math;

constexpr double infinity = std::numeric_limits<double>::infinity();

// Arguments are checked here, in our own words; overflow gives infinity instead of an exception.
using Policy =
    bm::policies::policy<bm::policies::overflow_error<bm::policies::ignore_error>, bm::policies::promote_double<true>>;

void require_chance(double p) {
  if (!(p > 0 && p < 1)) throw std::domain_error("a chance must lie between 0 and 1");
}

void require_df(double df) {
  if (!(df > 0)) throw std::domain_error("degrees of freedom must be above 0");
}

}  // namespace

double t_quantile(double p, double df) {
  require_chance(p);
  require_df(df);
  if (std::isinf(df)) return normal_quantile(p);
  return bm::quantile(bm::students_t_distribution<double, Policy>(df), p);
}

double t_two_sided_p(double t, double df) {
  require_df(df);
  if (std::isnan(t)) return t;
  if (std::isinf(t)) return 0;
  if (std::isinf(df)) return std::erfc(std::fabs(t) / std::sqrt(2.0));
  return 2 * bm::cdf(bm::complement(bm::students_t_distribution<double, Policy>(df), std::fabs(t)));
}

double normal_quantile(double p) {
  require_chance(p);
  return bm::quantile(bm::normal_distribution<double, Policy>(), p);
}

double normal_chance(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

double f_upper_p(double f, double df1, double df2) {
  require_df(df1);
  require_df(df2);
  if (std::isnan(f)) return f;
  if (f <= 0) return 1;
  if (std::isinf(f)) return 0;
  return bm::cdf(bm::complement(bm::fisher_f_distribution<double, Policy>(df1, df2), f));
}

double chi_squared_quantile(double p, double df) {
  require_chance(p);
  require_df(df);
  return bm::quantile(bm::chi_squared_distribution<double, Policy>(df), p);
}

double chi_squared_upper_p(double x, double df) {
  require_df(df);
  if (std::isnan(x)) return x;
  return x <= 0 ? 1 : bm::cdf(bm::complement(bm::chi_squared_distribution<double, Policy>(df), x));
}

double coverage_factor(double level, double df) {
  require_chance(level);
  return t_quantile(0.5 * (1 + level), df);
}

double welch_satterthwaite_df(std::span<const Contribution> contributions) {
  // Scaled by the largest u, so that fourth powers of micrometres do not underflow.
  double largest = 0;
  for (const Contribution& c : contributions) largest = std::max(largest, std::fabs(c.u));
  if (!(largest > 0)) return infinity;
  double variance = 0;
  double spread = 0;
  for (const Contribution& c : contributions) {
    const double v = (c.u / largest) * (c.u / largest);
    if (v == 0) continue;
    require_df(c.df);
    variance += v;
    spread += v * v / c.df;
  }
  return spread > 0 ? variance * variance / spread : infinity;
}

double combined_uncertainty(std::span<const Contribution> contributions) {
  double root = 0;
  for (const Contribution& c : contributions) root = std::hypot(root, c.u);
  return root;
}

double bonferroni(double p, int tests) { return std::min(1.0, p * std::max(tests, 1)); }

}  // namespace fitwright
