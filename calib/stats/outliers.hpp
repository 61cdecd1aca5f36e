#pragma once
// Tests for values that do not belong to one normal sample.

#include <cstddef>
#include <span>
#include <vector>

namespace fitwright {

/// Critical value of Grubbs' G = |y - mean| / sd for n values: (n-1)/sqrt(n) sqrt(t^2 / (n-2+t^2)) with t the upper
/// alpha/n (`two_sided`: alpha/(2n)) point of t with n - 2 degrees of freedom.
/// Throws std::domain_error for n < 3 or alpha outside 0..1.
/// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1; Grubbs, Technometrics 11 (1969).
double grubbs_critical_value(int n, double alpha, bool two_sided);

/// One step of the generalised extreme studentised deviate test.
struct EsdStep {
  std::size_t index = 0;  ///< of the value farthest from the mean of those left
  double statistic = 0;   ///< R = max |y - mean| / sd of those left
  double critical = 0;    ///< lambda
};

struct Esd {
  std::vector<EsdStep> steps;  ///< at most `most_outliers`; fewer when values run out or no scatter is left
  std::size_t outliers = 0;    ///< the first so many steps are outliers: up to the last with statistic > critical
};

/// Looks for up to `most_outliers` outliers in `values` at level `alpha`.
/// Throws std::domain_error for alpha outside 0..1. Fewer than 3 values give no steps.
/// Source: Rosner, Technometrics 25 (1983); NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.3.
Esd generalised_esd(std::span<const double> values, int most_outliers, double alpha);

}  // namespace fitwright
