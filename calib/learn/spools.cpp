#include "learn/spools.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/text.hpp"
#include "learn/words.hpp"
#include "stats/assumed_scatter.hpp"
#include "stats/intervals.hpp"

namespace fitwright {
namespace {

constexpr double level = 0.95;

Problems faults_of(const std::vector<SpoolValue>& values) {
  Problems out;
  for (const SpoolValue& v : values)
    if (!std::isfinite(v.value) || !std::isfinite(v.u) || !(v.u > 0))
      out.push_back({Code::bad_input,
                     {},
                     "spool " + quote(v.spool) + ": its value and uncertainty must be numbers, the uncertainty above 0",
                     "leave this spool out, or estimate it anew"});
  return out;
}

/// Weighted mean and its weights at a variance between spools.
struct Weighted {
  double sum = 0, squares = 0;  ///< of weights
  double mean = 0;
  double chi_squared = 0;  ///< sum w (y - mean)^2
};

Weighted weighted(const std::vector<SpoolValue>& values, double between) {
  Weighted out;
  double total = 0;
  for (const SpoolValue& v : values) {
    const double w = 1 / (v.u * v.u + between);
    out.sum += w;
    out.squares += w * w;
    total += w * v.value;
  }
  out.mean = total / out.sum;
  for (const SpoolValue& v : values) out.chi_squared += std::pow(v.value - out.mean, 2) / (v.u * v.u + between);
  return out;
}

double restricted_log_likelihood(const std::vector<SpoolValue>& values, double between) {
  const Weighted w = weighted(values, between);
  double logs = std::log(w.sum) + w.chi_squared;
  for (const SpoolValue& v : values) logs += std::log(v.u * v.u + between);
  return -0.5 * logs;
}

/// Its derivative by the variance between spools, times 2.
double score(const std::vector<SpoolValue>& values, double between) {
  const Weighted w = weighted(values, between);
  double out = -w.sum + w.squares / w.sum;
  for (const SpoolValue& v : values) {
    const double weight = 1 / (v.u * v.u + between);
    out += std::pow(weight * (v.value - w.mean), 2);
  }
  return out;
}

/// The likelihood may have two summits: the highest is looked for on a grid, then its score's zero by bisection.
double reml_between(const std::vector<SpoolValue>& values) {
  constexpr int steps = 240;
  double u2 = std::numeric_limits<double>::infinity(), low = values[0].value, high = low;
  for (const SpoolValue& v : values) {
    u2 = std::min(u2, v.u * v.u);
    low = std::min(low, v.value);
    high = std::max(high, v.value);
  }
  const double smallest = 1e-4 * u2, largest = std::max((high - low) * (high - low), smallest) * 10;
  std::vector<double> grid{0};
  for (int k = 0; k <= steps; ++k)
    grid.push_back(smallest * std::pow(largest / smallest, static_cast<double>(k) / steps));
  std::size_t best = 0;
  double most = -std::numeric_limits<double>::infinity();
  for (std::size_t k = 0; k < grid.size(); ++k)
    if (const double l = restricted_log_likelihood(values, grid[k]); l > most) {
      most = l;
      best = k;
    }
  double a = grid[best > 0 ? best - 1 : 0], b = grid[std::min(best + 1, grid.size() - 1)];
  if (best == 0 && score(values, 0) <= 0) return 0;
  for (int k = 0; k < 200 && b - a > 1e-15 * b; ++k) {
    const double middle = 0.5 * (a + b);
    (score(values, middle) > 0 ? a : b) = middle;
  }
  return 0.5 * (a + b);
}

RandomEffects at_between(const std::vector<SpoolValue>& values, double between) {
  const Weighted w = weighted(values, between);
  RandomEffects out;
  out.count = static_cast<int>(values.size());
  out.mean = w.mean;
  out.ratio = w.chi_squared / (out.count - 1);
  out.mean_u = std::sqrt(std::max(1.0, out.ratio) / w.sum);
  out.between_sd = std::sqrt(between);
  return out;
}

/// One or two spools: typical scatter, moderated by what two show.
SpoolForecast by_typical_scatter(const std::vector<SpoolValue>& earlier) {
  SpoolForecast out;
  double between = typical_spool_sd * typical_spool_sd;
  out.df = typical_spool_df;
  if (earlier.size() == 2) {
    const double seen = 0.5 * std::pow(earlier[0].value - earlier[1].value, 2);
    const double measuring = 0.5 * (std::pow(earlier[0].u, 2) + std::pow(earlier[1].u, 2));
    between = std::max(0.0, typical_spool_df * between + seen - measuring) / (typical_spool_df + 1);
    out.df += 1;
  }
  const Weighted w = weighted(earlier, between);
  out.value = w.mean;
  TwoPartVariance v;
  v.estimated_df = std::numeric_limits<double>::infinity();
  v.assumed_df = out.df;
  v.assumed = between * (1 + w.squares / (w.sum * w.sum));  // the next spool's, and the earlier ones' in the mean
  v.estimated = 1 / w.sum - between * w.squares / (w.sum * w.sum);
  out.u = std::sqrt(v.assumed + v.estimated);
  out.between_sd = std::sqrt(between);
  const double half = two_part_half_width(v, level);
  out.lower = out.value - half;
  out.upper = out.value + half;
  out.typical_scatter = true;
  out.method = earlier.size() == 1 ? "one spool, and typical scatter between spools (0.1 %; common practice, no source)"
                                   : "two spools, and typical scatter between spools (0.1 %; common practice, no "
                                     "source) moderated by their difference";
  return out;
}

}  // namespace

Result<RandomEffects> random_effects(const std::vector<SpoolValue>& values) {
  if (Problems faults = faults_of(values); !faults.empty()) return faults;
  if (values.size() < 2)
    return Problem{Code::unanswerable, {}, "scatter between spools needs two spools", "calibrate another spool"};
  return at_between(values, reml_between(values));
}

Result<SpoolForecast> next_spool(const std::string& material, const std::vector<SpoolValue>& earlier) {
  if (Problems faults = faults_of(earlier); !faults.empty()) return faults;
  if (earlier.empty())
    return Problem{Code::unanswerable,
                   {},
                   "no spool of " + quote(material) + " was calibrated yet",
                   "print and read a coupon with the first one"};
  SpoolForecast out;
  if (static_cast<int>(earlier.size()) < spools_for_scatter) {
    out = by_typical_scatter(earlier);
  } else {
    const RandomEffects r = at_between(earlier, reml_between(earlier));
    out.value = r.mean;
    out.u = std::hypot(r.between_sd, r.mean_u);
    out.df = r.count - 1;
    out.between_sd = r.between_sd;
    const double half = coverage_factor(level, out.df) * out.u;
    out.lower = out.value - half;
    out.upper = out.value + half;
    out.method =
        "random-effects mean by restricted maximum likelihood (REML), Hartung and Knapp's variance, interval "
        "for the next one by Student's t with " +
        std::to_string(r.count - 1) + " degrees of freedom";
  }
  out.spools = static_cast<int>(earlier.size());
  out.sentence = "A new spool of " + material + " is expected to shrink by " + learn::percent_text(out.value) + " (± " +
                 learn::percent_text(0.5 * (out.upper - out.lower)) + "), from " +
                 learn::count_text(out.spools, "earlier spool", "earlier spools") +
                 (out.typical_scatter ? " and the typical scatter between spools" : "") + ": expected, not measured.";
  if (out.value < 0) {
    const std::string shrink = "expected to shrink by";
    out.sentence.replace(out.sentence.find(shrink), shrink.size(), "expected to come out long by");
  }
  return out;
}

}  // namespace fitwright
