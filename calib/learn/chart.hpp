#pragma once
// A control chart: is this still what it was? Exponentially weighted moving average (EWMA) with limits that know how
// few points the baseline has.
//
//     z_n = (1 - lambda) z_{n-1} + lambda (x_n - m)/sd,     z_0 = 0
//     limit_n = L sqrt( lambda/(2 - lambda) (1 - (1-lambda)^{2n}) + (1 - (1-lambda)^n)^2/n0 )
//     sd^2 = (nu0 s0^2 + (n0 - 1) s^2)/(nu0 + n0 - 1)
//
// m and s are mean and standard deviation of the n0 baseline points; the second term under the root is the baseline
// mean's own error, which all z share. Sources: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4 (first term);
// Lucas & Saccucci, Technometrics 32 (1990), for lambda and L; the baseline term by propagating var(m) = sd^2/n0; sd as
// a scaled inverse chi-squared prior.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace fitwright {

struct ChartPoint {
  std::string label;  ///< a date or a coupon's name, for the sentence
  double value = 0;
};

/// How values are told.
enum class ChartUnit {
  ratio,  ///< in percent
  mm,
};

struct ChartOptions {
  std::string what = "the shrink factor";  ///< for the sentence
  ChartUnit unit = ChartUnit::ratio;
  double lambda = 0.2;       ///< weight of the newest point, 0..1
  double limit = 2.86;       ///< L: with these two a false alarm in 364 points where the baseline is known exactly
  double usual_sd = 0.0004;  ///< s0 of one point from coupon to coupon
  double usual_df = 8;       ///< nu0 that it is worth
  std::string after_signal;  ///< what to do, for the sentence; empty: nothing is said
};

/// Points a baseline needs at least, and takes when there are more.
inline constexpr std::size_t fewest_baseline = 3;
inline constexpr std::size_t usual_baseline = 5;

/// The kinds of charts. Usual scatters (the same file printed again and again, lengths of 80 mm and three readings):
/// 0.0004 for scale or shrink factor, 0.0105 mm for edge growth, by simulation with typical scatter; 0.005 mm for zero
/// and gauge readings of a caliper (common practice, no source).
ChartOptions shrink_chart();
ChartOptions edge_chart();
ChartOptions caliper_chart();

struct ChartStep {
  std::string label;
  double value = 0;
  double z = 0;      ///< in standard deviations
  double limit = 0;  ///< the same; beyond when |z| > limit
  bool beyond = false;
};

struct Chart {
  double mean = 0;           ///< of the baseline, unit of the values
  double sd = 0;             ///< moderated
  std::size_t baseline = 0;  ///< n0
  std::vector<ChartStep> steps;
  std::optional<std::size_t> first_signal;  ///< into steps
  double moved = 0;  ///< z of the last step in the unit of the values: where the level is now, smoothed
  std::string sentence;
};

/// The chart of `later` points against `baseline`.
/// Errors: Code::unanswerable with fewer than fewest_baseline baseline points; Code::bad_input for a value not finite.
/// Throws std::invalid_argument for lambda outside (0, 1], or a limit, usual_sd or usual_df not above zero.
Result<Chart> ewma_chart(const std::vector<ChartPoint>& baseline, const std::vector<ChartPoint>& later,
                         const ChartOptions& options = {});

/// The same from one series in order of time: the first usual_baseline points (at least fewest_baseline) are the
/// baseline.
Result<Chart> ewma_chart_of(const std::vector<ChartPoint>& points, const ChartOptions& options = {});

}  // namespace fitwright
