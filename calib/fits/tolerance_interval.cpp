#include "fits/tolerance_interval.hpp"

#include <cmath>
#include <numbers>
#include <stdexcept>

#include "stats/intervals.hpp"

namespace fitwright {
namespace {

double normal_density(double z) { return std::exp(-0.5 * z * z) / std::sqrt(2 * std::numbers::pi); }

/// r with Phi(m + r) - Phi(m - r) = content, by Newton's method from above.
double half_range(double m, double content) {
  double r = std::abs(m) + normal_quantile((1 + content) / 2);
  for (int i = 0; i < 60; ++i) {
    const double off = normal_chance(m + r) - normal_chance(m - r) - content;
    const double step = off / (normal_density(m + r) + normal_density(m - r));
    r -= step;
    if (std::abs(step) < 1e-15 * r) break;
  }
  return r;
}

/// Confidence that mean +- k s holds the content: Simpson's rule over the mean, which leaves nothing beyond 8.5 sd.
double confidence_of(double k, double n, double df, double content) {
  constexpr int intervals = 400;  // even; the integrand is smooth: halving the step changes the 13th digit
  constexpr double farthest = 8.5;
  const double h = farthest / intervals;
  double sum = 0;
  for (int i = 0; i <= intervals; ++i) {
    const double z = i * h;
    const double r = half_range(z / std::sqrt(n), content);
    const double weight = i == 0 || i == intervals ? 1 : i % 2 == 1 ? 4 : 2;
    sum += weight * normal_density(z) * chi_squared_upper_p(df * r * r / (k * k), df);
  }
  return 2 * sum * h / 3;
}

}  // namespace

double tolerance_factor(double n, double df, double content, double confidence) {
  if (!(n >= 1) || !(df > 0) || !(content > 0 && content < 1) || !(confidence > 0 && confidence < 1))
    throw std::domain_error("tolerance factor outside its range");
  // Howe's approximation, then the secant method on the logarithm (it never leaves the bracket by more than bisection
  // can mend).
  const double howe =
      normal_quantile((1 + content) / 2) * std::sqrt((1 + 1 / n) * df / chi_squared_quantile(1 - confidence, df));
  double low = howe / 2, high = howe * 2;
  double f_low = confidence_of(low, n, df, content) - confidence;
  double f_high = confidence_of(high, n, df, content) - confidence;
  double k = howe;
  int side = 0;
  for (int i = 0; i < 100 && high - low > 1e-13 * k; ++i) {  // false position, weights halved (Illinois)
    k = (low * f_high - high * f_low) / (f_high - f_low);
    const double f = confidence_of(k, n, df, content) - confidence;
    if (std::abs(f) < 1e-15) break;
    if (f > 0) {
      high = k;
      f_high = f;
      if (side == 1) f_low /= 2;
      side = 1;
    } else {
      low = k;
      f_low = f;
      if (side == -1) f_high /= 2;
      side = -1;
    }
  }
  return k;
}

}  // namespace fitwright
