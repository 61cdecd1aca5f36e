#pragma once
// Distribution functions that link a linear predictor to the chance of a category, in logarithms so that the far tails
// keep their digits.

namespace fitwright {

enum class Link {
  probit,   ///< standard normal
  logit,    ///< logistic
  cloglog,  ///< complementary log-log: 1 - exp(-exp(x))
};

/// log F(x), log (1 - F(x)), log f(x) and f'(x) / f(x) of the link's distribution.
struct LinkPoint {
  double log_below = 0;
  double log_above = 0;
  double log_density = 0;
  double density_slope = 0;
};

LinkPoint at_point(Link link, double x);

/// log Phi(x) of the standard normal, to double precision at any x.
double log_normal_chance(double x);

}  // namespace fitwright
