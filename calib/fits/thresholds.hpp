#pragma once
// Thresholds between the grades of a fit, from trials of a fit ladder.
//
// P(grade <= k | clearance c) = Phi((t_k - c) / s): an ordinal probit with a weak prior, so that it is finite with one
// copy and where the grades separate perfectly (docs/mathematics.md, fits).

#include <array>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "fits/trials.hpp"

namespace fitwright {

/// Which clearance the grades are laid against. Nominal: for parts that will not be measured, the scatter of printing
/// is in s. Measured: for parts that are measured first, or whose real size is predicted.
enum class ClearanceUsed { nominal, measured };
std::string_view word(ClearanceUsed used);

/// A value with its 95 % interval.
struct Ranged {
  double value = 0, lower = 0, upper = 0;
};

/// One set of values that the trials and the prior allow, with its share of the chance.
struct ThresholdDraw {
  std::array<double, threshold_count> t_mm{};
  double s_mm = 0;
  double weight = 0;  ///< all weights add up to 1
};

/// Copies that felt different at one clearance, or a looser place that felt tighter on one copy.
struct Contradiction {
  double clearance_mm = 0;
  Grade low = Grade::will_not_enter, high = Grade::will_not_enter;
  bool between_copies = true;  ///< false: on one copy, a place with more clearance felt tighter
  int copy = 0;                ///< that copy; 0 between copies
  std::string text;            ///< the sentence
};

struct Thresholds {
  std::array<Ranged, threshold_count> t_mm;  ///< value: maximum of the posterior; t_mm[k] between grades k and k + 1
  Ranged s_mm;                               ///< scatter of a place, feel included
  ClearanceUsed used = ClearanceUsed::nominal;
  bool assumed = false;  ///< no trials: common practice, no source
  int trials = 0, copies = 0;
  double neg_log_posterior = 0;      ///< -log likelihood + penalties / 2, at the values
  double neg_log_likelihood = 0;     ///< at the values
  double diameter_mm = 0;            ///< mean drawn size of the ladder; 0 where it is not known
  std::optional<bool> round;         ///< pegs in holes, or tongues in grooves; empty: not known, or both
  std::vector<ThresholdDraw> draws;  ///< the posterior, for chances and intervals
  std::vector<Contradiction> contradictions;
  std::vector<std::string> notes;  ///< what else is to be known, in sentences
};

/// The weak prior (common practice, no source).
namespace ladder_prior {
inline constexpr double t_mean_mm = 0.1, t_sd_mm = 0.5;        ///< each threshold
inline constexpr double gap_median_mm = 0.12, gap_log_sd = 1;  ///< of log(t_k - t_{k-1})
inline constexpr double s_median_mm = 0.04, s_log_sd = 0.5;    ///< of log s
}  // namespace ladder_prior

/// What the trials say. Intervals: 2.5 % and 97.5 % points of the posterior, by importance sampling about its maximum
/// with a fixed, evenly spread set of points. Errors: Code::unanswerable for no trials, or `measured` where a row has
/// no measured clearance.
Result<Thresholds> thresholds_from(const TrialSet& trials, ClearanceUsed used);

/// Measured where every row has a measured clearance, else nominal.
ClearanceUsed clearance_to_use(const TrialSet& trials);

/// What is assumed without trials, on real clearance: common practice, no source, with a wide spread.
Thresholds assumed_thresholds();

/// Chance of each grade at a clearance, the uncertainty of the thresholds included. `more_sd_mm`: scatter of the
/// clearance itself, beyond s.
std::array<double, grade_count> chances(const Thresholds& thresholds, double clearance_mm, double more_sd_mm = 0);

/// The clearance at which a fit is likeliest. Loose has no such place: the least clearance at which it rattles with
/// `loose_chance`.
struct BestClearance {
  Fit fit = Fit::press;
  double clearance_mm = 0;
  double chance = 0;
};
inline constexpr double loose_chance = 0.95;
BestClearance best_clearance(const Thresholds& thresholds, Fit fit);

/// Curves for a plot: chance of each grade over clearance.
struct ChanceCurve {
  std::vector<double> clearance_mm;
  std::array<std::vector<double>, grade_count> chance;
};
ChanceCurve chance_curve(const Thresholds& thresholds, double from_mm, double to_mm, int points);

/// One sentence: which clearance was used, and what the other would mean.
std::string why_this_clearance(const Thresholds& thresholds);

}  // namespace fitwright
