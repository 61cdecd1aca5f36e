#pragma once
// Akaike's criterion corrected for few data, to compare or average models of one response.

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace fitwright {

/// n ln(RSS/n) + 2k + 2k(k+1)/(n-k-1) with k = coefficients + 1 (the variance counts); infinity when n <= k + 1.
/// Source: Hurvich & Tsai, Regression and time series model selection in small samples, Biometrika 76 (1989).
inline double aicc(double residual_sum_of_squares, int n, int coefficients) {
  const double k = coefficients + 1;
  if (n - k - 1 <= 0) return std::numeric_limits<double>::infinity();
  return n * std::log(residual_sum_of_squares / n) + 2 * k + 2 * k * (k + 1) / (n - k - 1);
}

/// Weights exp(-delta/2), summing to 1, of models with these criteria (Burnham & Anderson, 2002, 2.9).
inline std::vector<double> akaike_weights(const std::vector<double>& criteria) {
  std::vector<double> weights;
  if (criteria.empty()) return weights;
  const double best = *std::min_element(criteria.begin(), criteria.end());
  double sum = 0;
  for (const double c : criteria) {
    weights.push_back(std::exp(-0.5 * (c - best)));
    sum += weights.back();
  }
  for (double& w : weights) w /= sum;
  return weights;
}

}  // namespace fitwright
