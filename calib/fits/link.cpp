#include "fits/link.hpp"

#include <cmath>
#include <numbers>

namespace fitwright {
namespace {

/// Below it erfc loses its digits to underflow, and the asymptotic series has more than double's.
constexpr double far_tail = -30;

double log_one_minus_exp(double x) {  // x < 0
  return x > -std::numbers::ln2 ? std::log(-std::expm1(x)) : std::log1p(-std::exp(x));
}

}  // namespace

double log_normal_chance(double x) {
  if (x > far_tail) {
    if (x > 5) return std::log1p(-0.5 * std::erfc(x / std::numbers::sqrt2));
    return std::log(0.5 * std::erfc(-x / std::numbers::sqrt2));
  }
  // Abramowitz & Stegun 26.2.12: Phi(-x) = phi(x)/x (1 - 1/x^2 + 3/x^4 - 15/x^6 + ...).
  const double r = 1 / (x * x);
  const double series = 1 - r * (1 - r * (3 - r * (15 - r * 105)));
  return -0.5 * x * x - std::log(-x) - 0.5 * std::log(2 * std::numbers::pi) + std::log(series);
}

LinkPoint at_point(Link link, double x) {
  LinkPoint p;
  switch (link) {
    case Link::probit:
      p.log_below = log_normal_chance(x);
      p.log_above = log_normal_chance(-x);
      p.log_density = -0.5 * x * x - 0.5 * std::log(2 * std::numbers::pi);
      p.density_slope = -x;
      break;
    case Link::logit:
      p.log_below = x > 0 ? -std::log1p(std::exp(-x)) : x - std::log1p(std::exp(x));
      p.log_above = x > 0 ? -x - std::log1p(std::exp(-x)) : -std::log1p(std::exp(x));
      p.log_density = p.log_below + p.log_above;
      p.density_slope = std::exp(p.log_above) - std::exp(p.log_below);
      break;
    case Link::cloglog: {
      const double e = std::exp(x);
      p.log_above = -e;
      p.log_below = log_one_minus_exp(-e);
      p.log_density = x - e;
      p.density_slope = 1 - e;
      break;
    }
  }
  return p;
}

}  // namespace fitwright
