#pragma once
// Means, scatter and one-way analysis of variance. Sums run in extended precision over differences from the mean, so
// that 1000000.1 and 1000000.3 keep their digits. Templates, so that data may be given in double or long double.

#include <algorithm>
#include <cmath>
#include <concepts>
#include <limits>
#include <span>
#include <stdexcept>
#include <vector>

namespace fitwright {

/// Arithmetic mean, corrected by the mean of what it leaves over. Throws std::invalid_argument when there is no value.
template <std::floating_point T>
long double extended_mean(std::span<const T> values) {
  if (values.empty()) throw std::invalid_argument("mean of nothing");
  const long double n = static_cast<long double>(values.size());
  long double sum = 0;
  for (const T v : values) sum += v;
  const long double first = sum / n;
  long double rest = 0;
  for (const T v : values) rest += v - first;
  return first + rest / n;
}

/// Sum of squared differences from the mean (two passes, corrected for the mean's rounding). Source: Chan, Golub &
/// LeVeque, Algorithms for computing the sample variance, The American Statistician 37 (1983).
template <std::floating_point T>
long double sum_of_squares(std::span<const T> values) {
  const long double centre = extended_mean(values);
  long double squares = 0;
  long double rest = 0;
  for (const T v : values) {
    const long double d = v - centre;
    squares += d * d;
    rest += d;
  }
  return squares - rest * rest / static_cast<long double>(values.size());
}

/// Arithmetic mean.
template <std::floating_point T>
double mean(std::span<const T> values) {
  return static_cast<double>(extended_mean(values));
}

/// Standard deviation with n - 1; NaN for fewer than two values.
template <std::floating_point T>
double standard_deviation(std::span<const T> values) {
  if (values.size() < 2) return std::numeric_limits<double>::quiet_NaN();
  return static_cast<double>(std::sqrt(sum_of_squares(values) / static_cast<long double>(values.size() - 1)));
}

/// Lag-1 autocorrelation: sum (y_i - m)(y_{i+1} - m) / sum (y_i - m)^2.
template <std::floating_point T>
double autocorrelation(std::span<const T> values) {
  const long double centre = extended_mean(values);
  long double products = 0;
  for (std::size_t i = 0; i + 1 < values.size(); ++i) products += (values[i] - centre) * (values[i + 1] - centre);
  return static_cast<double>(products / sum_of_squares(values));
}

/// Middle value, or the mean of the two middle ones. Throws std::invalid_argument when there is no value.
inline double median(std::vector<double> values) {
  if (values.empty()) throw std::invalid_argument("median of nothing");
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  return 0.5 * (*std::max_element(values.begin(), middle) + *middle);
}

/// Scatter within groups: root of sum of squares within / sum (n_g - 1). NaN and df 0 when no group has two values.
struct PooledSd {
  double sd = std::numeric_limits<double>::quiet_NaN();
  int df = 0;
};

template <std::floating_point T>
PooledSd pooled_sd(const std::vector<std::vector<T>>& groups) {
  PooledSd pooled;
  long double squares = 0;
  for (const auto& g : groups) {
    if (g.size() < 2) continue;
    squares += sum_of_squares(std::span<const T>(g));
    pooled.df += static_cast<int>(g.size()) - 1;
  }
  if (pooled.df > 0) pooled.sd = static_cast<double>(std::sqrt(squares / pooled.df));
  return pooled;
}

/// One-way analysis of variance.
struct Anova {
  int df_between = 0;
  int df_within = 0;
  double ss_between = 0;
  double ss_within = 0;
  double ms_between = 0;
  double ms_within = 0;
  double f = 0;  ///< ms_between / ms_within
  double r_squared = 0;
  double residual_sd = 0;
};

/// Throws std::invalid_argument for fewer than two groups, an empty group, or no group with two values.
template <std::floating_point T>
Anova one_way_anova(const std::vector<std::vector<T>>& groups) {
  if (groups.size() < 2) throw std::invalid_argument("analysis of variance needs two groups");
  // Group means are taken about a first grand mean: their differences are small beside the readings themselves.
  std::size_t n = 0;
  long double centre = 0;
  for (const auto& g : groups) {
    centre += extended_mean(std::span<const T>(g)) * static_cast<long double>(g.size());
    n += g.size();
  }
  centre /= static_cast<long double>(n);
  long double within = 0;
  long double between = 0;
  long double rest = 0;
  for (const auto& g : groups) {
    const long double size = static_cast<long double>(g.size());
    const long double d = extended_mean(std::span<const T>(g)) - centre;
    within += sum_of_squares(std::span<const T>(g));
    between += size * d * d;
    rest += size * d;
  }
  between -= rest * rest / static_cast<long double>(n);
  Anova a;
  a.df_between = static_cast<int>(groups.size()) - 1;
  a.df_within = static_cast<int>(n - groups.size());
  if (a.df_within < 1) throw std::invalid_argument("analysis of variance needs a group with two values");
  const long double ms_between = between / a.df_between;
  const long double ms_within = within / a.df_within;
  a.ss_between = static_cast<double>(between);
  a.ss_within = static_cast<double>(within);
  a.ms_between = static_cast<double>(ms_between);
  a.ms_within = static_cast<double>(ms_within);
  a.f = static_cast<double>(ms_between / ms_within);
  a.r_squared = static_cast<double>(between / (between + within));
  a.residual_sd = static_cast<double>(std::sqrt(ms_within));
  return a;
}

}  // namespace fitwright
