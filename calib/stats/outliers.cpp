#include "stats/outliers.hpp"

#include <cmath>
#include <numeric>
#include <stdexcept>

#include "stats/intervals.hpp"
#include "stats/summary.hpp"

namespace fitwright {

double grubbs_critical_value(int n, double alpha, bool two_sided) {
  if (n < 3) throw std::domain_error("Grubbs' test needs three values");
  const double t = t_quantile(1 - alpha / (two_sided ? 2.0 * n : 1.0 * n), n - 2);
  return (n - 1) / std::sqrt(static_cast<double>(n)) * std::sqrt(t * t / (n - 2 + t * t));
}

Esd generalised_esd(std::span<const double> values, int most_outliers, double alpha) {
  if (!(alpha > 0 && alpha < 1)) throw std::domain_error("a level must lie between 0 and 1");
  std::vector<std::size_t> left(values.size());
  std::iota(left.begin(), left.end(), std::size_t{0});
  Esd esd;
  for (int i = 0; i < most_outliers && left.size() >= 3; ++i) {
    std::vector<double> kept;
    for (const std::size_t at : left) kept.push_back(values[at]);
    const double centre = mean(std::span<const double>(kept));
    const double sd = standard_deviation(std::span<const double>(kept));
    if (!(sd > 0)) break;
    std::size_t farthest = 0;
    for (std::size_t k = 1; k < kept.size(); ++k)
      if (std::fabs(kept[k] - centre) > std::fabs(kept[farthest] - centre)) farthest = k;
    // Rosner's lambda for i taken away is the two-sided Grubbs value of the n - i that are left.
    const EsdStep step{left[farthest], std::fabs(kept[farthest] - centre) / sd,
                       grubbs_critical_value(static_cast<int>(left.size()), alpha, true)};
    esd.steps.push_back(step);
    if (step.statistic > step.critical) esd.outliers = esd.steps.size();
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(farthest));
  }
  return esd;
}

}  // namespace fitwright
