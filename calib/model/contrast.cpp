#include "model/contrast.hpp"

#include <algorithm>
#include <cmath>

#include "stats/assumed_scatter.hpp"
#include "stats/intervals.hpp"

namespace fitwright {
namespace {

using Eigen::Index;

constexpr double level = 0.95;
/// Degrees of freedom are reported up to this; at it, Student's t is the normal to eight digits.
constexpr double most_df = 1e9;
/// A prior's part in a variance below this share is not worth naming.
constexpr double negligible_share = 1e-6;

/// Degrees of freedom of a part for these weights: the fewest of the terms that the part bears on.
double df_of(const UncertaintyPart& part, const Eigen::VectorXd& weights) {
  double df = most_df;
  for (Index i = 0; i < weights.size(); ++i)
    if (weights[i] != 0 && part.covariance(i, i) > 0) df = std::min(df, part.df[i]);
  return df;
}

}  // namespace

ContrastEstimate uncertainty_of(const std::vector<UncertaintyPart>& parts, const Eigen::VectorXd& weights) {
  double variance = 0, bottom = 0, believed = 0, copies = 0, copies_df = most_df;
  for (const UncertaintyPart& part : parts) {
    const double v = weights.dot(part.covariance * weights);
    if (!(v > 0)) continue;
    const double df = df_of(part, weights);
    variance += v;
    bottom += v * v / df;
    if (part.is_prior || part.assumed_copies) believed += v;
    if (part.assumed_copies) {
      copies += v;
      copies_df = std::min(copies_df, df);
    }
  }
  ContrastEstimate out;
  if (variance == 0) {
    out.df = most_df;
    return out;
  }
  out.u = std::sqrt(variance);
  out.df = std::clamp(variance * variance / bottom, 1.0, most_df);
  out.rests_on_prior = believed > negligible_share * variance;
  if (copies <= negligible_share * variance) {
    out.half_width = coverage_factor(level, out.df) * out.u;
    return out;
  }
  TwoPartVariance v;
  v.assumed = copies;
  v.assumed_df = copies_df;
  v.estimated = std::max(0.0, variance - copies);
  const double rest = bottom - copies * copies / copies_df;
  v.estimated_df = rest > 0 && v.estimated > 0 ? std::min(most_df, v.estimated * v.estimated / rest) : most_df;
  out.half_width = two_part_half_width(v, level);
  return out;
}

std::vector<UncertaintyPart> parts_of(const Estimates& estimates) {
  if (!estimates.parts.empty() || estimates.parameters.empty()) return estimates.parts;
  const auto n = static_cast<Index>(estimates.parameters.size());
  UncertaintyPart all{estimates.covariance, Eigen::VectorXd::Ones(n), false, false};
  for (Index i = 0; i < n; ++i) all.df[i] = std::max(1.0, estimates.parameters[static_cast<std::size_t>(i)].df);
  return {std::move(all)};
}

std::optional<ContrastEstimate> contrast(const Estimates& estimates, const Contrast& weights) {
  Eigen::VectorXd w = Eigen::VectorXd::Zero(static_cast<Index>(estimates.parameters.size()));
  double value = 0;
  for (const auto& [name, weight] : weights) {
    if (weight == 0) continue;
    const Parameter* p = estimates.find(name);
    if (!p) return std::nullopt;
    w[p - estimates.parameters.data()] = weight;
    value += weight * p->value;
  }
  ContrastEstimate out = uncertainty_of(parts_of(estimates), w);
  out.value = value;
  for (const auto& [name, weight] : weights)
    if (weight != 0 && !std::isfinite(estimates.find(name)->u)) out.u = out.half_width = estimates.find(name)->u;
  return out;
}

}  // namespace fitwright
