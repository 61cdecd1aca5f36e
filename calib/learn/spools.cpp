#include "learn/spools.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/text.hpp"
#include "base/words.hpp"
#include "learn/variance_posterior.hpp"
#include "learn/words.hpp"
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

/// Half the expected information of the restricted likelihood about the variance between spools, tr(P P)/2.
double information(const std::vector<SpoolValue>& values, double between) {
  double s1 = 0, s2 = 0, s3 = 0;
  for (const SpoolValue& v : values) {
    const double w = 1 / (v.u * v.u + between);
    s1 += w;
    s2 += w * w;
    s3 += w * w * w;
  }
  return 0.5 * (s2 - 2 * s3 / s1 + s2 * s2 / (s1 * s1));
}

/// Posterior of the variance between spools: Jeffreys' prior, or for few spools the typical scatter.
learn::VariancePosterior posterior_of(const std::vector<SpoolValue>& values, bool typical) {
  constexpr double typical_variance = typical_spool_sd * typical_spool_sd;
  double scale = typical ? typical_variance : 0;
  for (const SpoolValue& v : values)
    scale = std::max({scale, v.u * v.u, typical ? 0.0 : std::pow(v.value - values[0].value, 2)});
  return learn::variance_posterior(
      [&](double v) {
        const double prior =
            typical ? -(0.5 * typical_spool_df + 1) * std::log(v) - 0.5 * typical_spool_df * typical_variance / v
                    : 0.5 * std::log(information(values, v));
        return prior + restricted_log_likelihood(values, v);
      },
      scale);
}

std::string method_of(int spools) {
  if (spools == 1)
    return said(
        "one spool, and typical scatter between spools ({} %, worth 4 degrees of freedom; common practice, no "
        "source)",
        said_shortest(0.1));
  if (spools == 2)
    return said(
        "two spools, and typical scatter between spools ({} %, worth 4 degrees of freedom; common practice, no "
        "source) together with their difference",
        said_shortest(0.1));
  return tr(
      "random-effects mean; interval for the next spool averaged over what the scatter between spools may be "
      "(restricted likelihood, Jeffreys' prior)");
}

}  // namespace

Result<RandomEffects> random_effects(const std::vector<SpoolValue>& values) {
  if (Problems faults = faults_of(values); !faults.empty()) return faults;
  if (values.size() < 2)
    return Problem{Code::unanswerable, {}, "scatter between spools needs two spools", "calibrate another spool"};
  return at_between(values, reml_between(values));
}

double usual_half_width(const RandomEffects& effects, double at_level) {
  return coverage_factor(at_level, effects.count - 1) * std::hypot(effects.between_sd, effects.mean_u);
}

Result<SpoolForecast> next_spool(const std::string& material, const std::vector<SpoolValue>& earlier) {
  if (Problems faults = faults_of(earlier); !faults.empty()) return faults;
  if (earlier.empty())
    return Problem{Code::unanswerable,
                   {},
                   said("no spool of {} was calibrated yet", quote(material)),
                   tr("print and read a coupon with the first one")};
  SpoolForecast out;
  out.spools = static_cast<int>(earlier.size());
  out.typical_scatter = out.spools < spools_for_scatter;
  out.df = out.spools - 1 + (out.typical_scatter ? typical_spool_df : 0);
  out.between_sd = out.spools == 1 ? typical_spool_sd : std::sqrt(reml_between(earlier));
  out.method = method_of(out.spools);

  const learn::VariancePosterior posterior = posterior_of(earlier, out.typical_scatter);
  learn::Normals next;
  for (std::size_t k = 0; k < posterior.variance.size(); ++k) {
    const Weighted w = weighted(earlier, posterior.variance[k]);
    next.mean.push_back(w.mean);
    next.sd.push_back(std::sqrt(posterior.variance[k] + 1 / w.sum));
    out.value += posterior.weight[k] * w.mean;
  }
  out.lower = learn::mixture_quantile(posterior, next, 0.5 * (1 - level));
  out.upper = learn::mixture_quantile(posterior, next, 0.5 * (1 + level));
  const double half = 0.5 * (out.upper - out.lower);
  out.u = half / coverage_factor(level, out.df);
  const std::string from =
      out.spools == 1 ? std::string(tr("one earlier spool")) : said("{} earlier spools", out.spools);
  const std::string rests = out.typical_scatter ? said("{} and the typical scatter between spools", from) : from;
  out.sentence = filled(
      out.value < 0 ? tr("A new spool of {} is expected to come out long by {} (± {}), from {}: expected, not "
                         "measured.")
                    : tr("A new spool of {} is expected to shrink by {} (± {}), from {}: expected, not measured."),
      material, learn::percent_text(out.value), learn::percent_text(half), rests);
  return out;
}

}  // namespace fitwright
