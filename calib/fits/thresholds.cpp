#include "fits/thresholds.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/words.hpp"
#include "fits/contradictions.hpp"
#include "fits/ladder_posterior.hpp"
#include "stats/intervals.hpp"

namespace fitwright {

std::string_view word(ClearanceUsed used) { return used == ClearanceUsed::nominal ? "nominal" : "measured"; }

ClearanceUsed clearance_to_use(const TrialSet& trials) {
  const bool all = std::all_of(trials.rows.begin(), trials.rows.end(),
                               [](const FitTrial& t) { return t.measured_clearance_mm.has_value(); });
  return all && !trials.rows.empty() ? ClearanceUsed::measured : ClearanceUsed::nominal;
}

namespace {

/// Fewer effective points than this, and the intervals' second digit is not to be trusted.
constexpr double few_points = 200;

double mean_diameter(const TrialSet& trials) {
  double sum = 0;
  int n = 0;
  for (const FitTrial& t : trials.rows)
    if (t.diameter_mm) sum += *t.diameter_mm, ++n;
  return n > 0 ? sum / n : 0;
}

void note_unseen(const TrialSet& trials, std::vector<std::string>& notes) {
  std::array<int, grade_count> seen{};
  for (const FitTrial& t : trials.rows) ++seen[static_cast<std::size_t>(t.grade)];
  for (int k = 0; k < grade_count; ++k)
    if (seen[static_cast<std::size_t>(k)] == 0)
      notes.push_back(said("No place was found that {}: where that begins and ends rests on the weak prior as well.",
                           tr(felt(static_cast<Grade>(k)))));
}

}  // namespace

Result<Thresholds> thresholds_from(const TrialSet& trials, ClearanceUsed used) {
  if (trials.rows.empty())
    return Problem{Code::unanswerable,
                   {trials.source, 0, 0},
                   "there is no trial to take thresholds from",
                   "print a fit ladder and try its places"};
  Problems problems;
  if (used == ClearanceUsed::measured)
    for (const FitTrial& t : trials.rows)
      if (!t.measured_clearance_mm)
        problems.push_back({Code::unanswerable,
                            {trials.source, t.row, 0},
                            "this trial has no measured clearance",
                            "measure its hole and peg, or use the drawn clearance"});
  if (!problems.empty()) return problems;

  const OrdinalData data = ladder_data(trials, used);
  const LadderVector maximum = ladder_maximum(data);
  const LadderPoint top = ladder_at(data, maximum);
  LadderSample sample = sample_ladder(data, maximum);
  const ThresholdDraw best = thresholds_at(maximum);

  Thresholds out;
  for (std::size_t k = 0; k < out.t_mm.size(); ++k) out.t_mm[k] = {best.t_mm[k], sample.lower[k], sample.upper[k]};
  out.s_mm = {best.s_mm, sample.lower.back(), sample.upper.back()};
  out.used = used;
  out.trials = static_cast<int>(trials.rows.size());
  std::set<int> copies;
  for (const FitTrial& t : trials.rows) copies.insert(t.copy);
  out.copies = static_cast<int>(copies.size());
  out.neg_log_posterior = top.value;
  out.neg_log_likelihood = top.neg_log_likelihood;
  out.diameter_mm = mean_diameter(trials);
  out.round = trials.rows.front().round;
  for (const FitTrial& t : trials.rows)
    if (t.round != out.round) out.round.reset();
  out.draws = std::move(sample.draws);
  out.contradictions = contradictions(trials);
  note_unseen(trials, out.notes);
  if (out.copies == 1)
    out.notes.push_back(
        tr("One copy cannot show how much copies differ: the weak prior keeps the scatter from being taken as "
           "nothing."));
  if (sample.effective < few_points)
    out.notes.push_back(tr("The intervals are rough: the trials leave a lopsided range of thresholds."));
  return out;
}

Thresholds assumed_thresholds() {
  // Common practice, no source: rules of thumb for desktop filament printers, with a wide spread.
  constexpr std::array<double, threshold_count> t_mm{-0.05, 0.05, 0.15, 0.30};
  constexpr double shift_sd_mm = 0.05, gap_log_sd = 0.35;
  constexpr double s_mm = 0.04, s_log_sd = 0.4;
  constexpr int count = 256;
  // Evenly spread points of the R-sequence in five dimensions (see ladder_posterior.cpp).
  constexpr int dimensions = threshold_count + 1;
  double g = 1.1;
  for (int i = 0; i < 60; ++i) g = std::pow(1 + g, 1.0 / (dimensions + 1));
  Thresholds out;
  out.assumed = true;
  out.used = ClearanceUsed::measured;
  for (int n = 1; n <= count; ++n) {
    std::array<double, dimensions> z{};
    double power = 1;
    for (double& each : z) each = normal_quantile(std::fmod(0.5 + n * (power /= g), 1.0));
    ThresholdDraw d;
    d.weight = 1.0 / count;
    d.t_mm[0] = t_mm[0] + shift_sd_mm * z[0];
    for (std::size_t k = 1; k < d.t_mm.size(); ++k)
      d.t_mm[k] = d.t_mm[k - 1] + (t_mm[k] - t_mm[k - 1]) * std::exp(gap_log_sd * z[k]);
    d.s_mm = s_mm * std::exp(s_log_sd * z.back());
    out.draws.push_back(d);
  }
  const auto range = [&](auto value_of, double middle) {
    std::vector<double> v;
    for (const ThresholdDraw& d : out.draws) v.push_back(value_of(d));
    std::sort(v.begin(), v.end());
    const auto at = [&](double p) { return v[static_cast<std::size_t>(p * count)]; };
    return Ranged{middle, at(0.025), at(0.975)};
  };
  for (std::size_t k = 0; k < t_mm.size(); ++k)
    out.t_mm[k] = range([k](const ThresholdDraw& d) { return d.t_mm[k]; }, t_mm[k]);
  out.s_mm = range([](const ThresholdDraw& d) { return d.s_mm; }, s_mm);
  out.notes.push_back(
      tr("No fit ladder was tried: how much clearance feels how is common practice, no source, with a wide spread."));
  return out;
}

std::array<double, grade_count> chances(const Thresholds& thresholds, double clearance_mm, double more_sd_mm) {
  std::array<double, threshold_count> at_most{};
  for (const ThresholdDraw& d : thresholds.draws) {
    const double sd = more_sd_mm > 0 ? std::hypot(d.s_mm, more_sd_mm) : d.s_mm;
    for (std::size_t k = 0; k < at_most.size(); ++k)
      at_most[k] += d.weight * normal_chance((d.t_mm[k] - clearance_mm) / sd);
  }
  std::array<double, grade_count> out{};
  double below = 0;
  for (std::size_t k = 0; k < at_most.size(); ++k) {
    out[k] = std::max(0.0, at_most[k] - below);
    below = at_most[k];
  }
  out.back() = std::max(0.0, 1 - below);
  return out;
}

BestClearance best_clearance(const Thresholds& thresholds, Fit fit) {
  const auto grade = static_cast<std::size_t>(grade_of(fit));
  const auto chance_at = [&](double c) { return chances(thresholds, c)[grade]; };
  constexpr double beyond_mm = 1, fine_mm = 1e-4;
  if (fit == Fit::loose) {
    // Rises with clearance: bisection for the least that rattles often enough.
    double low = thresholds.t_mm.back().value - beyond_mm, high = thresholds.t_mm.back().upper + beyond_mm;
    while (chance_at(high) < loose_chance && high < 100) high += beyond_mm;
    while (high - low > fine_mm / 10) (chance_at((low + high) / 2) < loose_chance ? low : high) = (low + high) / 2;
    return {fit, high, chance_at(high)};
  }
  const Ranged &lower = thresholds.t_mm[grade - 1], &upper = thresholds.t_mm[grade];
  constexpr int coarse = 24;
  const double from = lower.value, step = (upper.value - lower.value) / coarse;
  int best = 0;
  double most = -1;
  for (int i = 0; i <= coarse; ++i)
    if (const double p = chance_at(from + i * step); p > most) most = p, best = i;
  double low = from + (best - 1) * step, high = from + (best + 1) * step;
  while (high - low > fine_mm) {  // ternary search: one maximum within
    const double a = low + (high - low) / 3, b = high - (high - low) / 3;
    (chance_at(a) < chance_at(b) ? low : high) = chance_at(a) < chance_at(b) ? a : b;
  }
  return {fit, (low + high) / 2, chance_at((low + high) / 2)};
}

ChanceCurve chance_curve(const Thresholds& thresholds, double from_mm, double to_mm, int points) {
  ChanceCurve out;
  for (int i = 0; i < points; ++i) {
    const double c = points > 1 ? from_mm + (to_mm - from_mm) * i / (points - 1) : from_mm;
    out.clearance_mm.push_back(c);
    const auto p = chances(thresholds, c);
    for (std::size_t k = 0; k < p.size(); ++k) out.chance[k].push_back(p[k]);
  }
  return out;
}

std::string why_this_clearance(const Thresholds& thresholds) {
  if (thresholds.assumed)
    return tr(
        "Real clearance is meant; without trials where one feel ends and the next begins is common practice, no "
        "source.");
  if (thresholds.used == ClearanceUsed::nominal)
    return tr(
        "The drawn clearance is used: the scatter then holds what printing varies as well as what hands feel, "
        "which is right for parts that will not be measured; with measured clearances it would be smaller, for "
        "parts that are measured before they are used.");
  return tr(
      "The measured clearance is used: the scatter is that of feel alone, which is right for parts that are "
      "measured before they are used; a part that is not measured varies more, by how it prints.");
}

}  // namespace fitwright
