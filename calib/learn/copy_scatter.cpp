#include "learn/copy_scatter.hpp"

#include <Eigen/Core>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/number.hpp"
#include "learn/variance_posterior.hpp"
#include "learn/words.hpp"
#include "model/cells.hpp"
#include "model/priors.hpp"
#include "stats/intervals.hpp"

namespace fitwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Two parameters a copy: with so many places their noise has at least two degrees of freedom a copy.
constexpr Index fewest_places = 4;
/// Edge growth and scale are told apart when the smaller eigenvalue of their correlation is above this.
constexpr double told_apart = 1e-6;
constexpr double interval_level = 0.95;

Problem cannot(const std::string& what, const std::string& remedy) { return {Code::unanswerable, {}, what, remedy}; }

/// Flat lengths in the plane as the machine sees them.
std::vector<PlaceCell> flat_lengths(const Estimates& estimates) {
  std::vector<PlaceCell> out;
  for (const Cell& c : estimates.cells) {
    if ((c.kind != Kind::outer && c.kind != Kind::inner) || (c.axis != Axis::x && c.axis != Axis::y)) continue;
    if (c.readings == 0) continue;
    PlaceCell p;
    p.place.kind = c.kind;
    p.place.axis = c.axis;
    p.place.nominal_mm = c.feature.nominal_mm;
    p.feature = c.feature;
    p.copy = c.copy;
    p.turned_deg = c.turned_deg;
    p.mean_mm = c.mean_mm;
    out.push_back(std::move(p));
  }
  return out;
}

/// Posterior of the variance beyond the noise, under Jeffreys' prior.
learn::VariancePosterior posterior_of(const std::vector<ScatterEvidence>& sets) {
  double scale = 0;
  for (const ScatterEvidence& s : sets) scale = std::max({scale, s.variance, s.noise_variance});
  return learn::variance_posterior(
      [&](double v) {
        double information = 0, log_likelihood = 0;
        for (const ScatterEvidence& s : sets) {
          const double total = v + s.noise_variance;
          information += s.df / (total * total);
          log_likelihood -= 0.5 * s.df * (std::log(total) + s.variance / total);
        }
        return 0.5 * std::log(information) + log_likelihood;
      },
      scale);
}

/// Half-width of the interval that holds the next copy's effect, N(0, V) with V from the posterior.
double predictive_half_width(const learn::VariancePosterior& posterior) {
  learn::Normals effects;
  for (const double v : posterior.variance) {
    effects.mean.push_back(0);
    effects.sd.push_back(std::sqrt(v));
  }
  return learn::mixture_quantile(posterior, effects, 0.5 * (1 + interval_level));
}

double sample_variance(const std::vector<double>& deviations) {
  double mean = 0, sum = 0;
  for (const double d : deviations) mean += d / static_cast<double>(deviations.size());
  for (const double d : deviations) sum += (d - mean) * (d - mean);
  return sum / static_cast<double>(deviations.size() - 1);
}

}  // namespace

Result<CopyEffects> copy_effects(const Estimates& estimates) {
  const std::vector<PlaceCell> cells = flat_lengths(estimates);
  const MatchedTable table = match(cells);
  const auto nc = static_cast<Index>(table.copies.size());
  if (nc < 2)
    return cannot("one copy alone cannot show how much copies differ", "print and read a second copy of this coupon");
  std::vector<const MatchedFeature*> places;
  for (const MatchedFeature& f : table.features)
    if (std::find(f.cells.begin(), f.cells.end(), npos_cell) == f.cells.end()) places.push_back(&f);
  const auto n = static_cast<Index>(places.size());
  if (n < fewest_places)
    return cannot("only " + std::to_string(n) + " lengths were read on every copy, too few to compare the copies",
                  "read outsides and slots of several lengths on each copy");

  MatrixXd x(n, 2), y(n, nc);
  for (Index f = 0; f < n; ++f) {
    const std::vector<std::size_t>& of = places[static_cast<std::size_t>(f)]->cells;
    const MachinePlace& place = cells[of[0]].place;
    x.row(f) << (place.kind == Kind::inner ? -2.0 : 2.0), place.nominal_mm;
    for (Index c = 0; c < nc; ++c) y(f, c) = cells[of[static_cast<std::size_t>(c)]].mean_mm;
  }
  y.colwise() -= y.rowwise().mean().eval();
  const MatrixXd normal = x.transpose() * x;
  const double correlation = normal(0, 1) / std::sqrt(normal(0, 0) * normal(1, 1));
  if (1 - std::abs(correlation) < told_apart)
    return cannot("lengths of one kind and size cannot tell edge growth and scale of a copy apart",
                  "read outsides and slots of several lengths on each copy");
  const MatrixXd inverse = normal.inverse();
  const MatrixXd b = inverse * x.transpose() * y;

  CopyEffects out;
  for (Index c = 0; c < nc; ++c) {
    out.edge_mm.push_back(b(0, c));
    out.scale.push_back(b(1, c));
  }
  out.noise_df = static_cast<double>((n - 2) * (nc - 1));
  // Readings that agree to the last digit still carry the rounding of the display.
  const double noise = std::max((y - x * b).squaredNorm() / out.noise_df, std::pow(prior::resolution_sd_mm, 2));
  out.edge_noise_mm2 = noise * inverse(0, 0);
  out.scale_noise = noise * inverse(1, 1);
  return out;
}

PooledScatter pool_scatter(const std::vector<ScatterEvidence>& sets) {
  PooledScatter out;
  double observed = 0, noise = 0;
  for (const ScatterEvidence& s : sets) {
    if (!(s.df > 0) || !(s.variance >= 0) || !(s.noise_variance >= 0) || !std::isfinite(s.variance + s.noise_variance))
      throw std::invalid_argument("pool_scatter: variances and degrees of freedom must not be negative");
    out.df += s.df;
    observed += s.df * s.variance;
    noise += s.df * s.noise_variance;
  }
  if (!(observed + noise > 0)) throw std::invalid_argument("pool_scatter: nothing that scatters");
  out.observed_sd = std::sqrt(observed / out.df);
  out.noise_sd = std::sqrt(noise / out.df);
  out.sd = predictive_half_width(posterior_of(sets)) / coverage_factor(interval_level, out.df);
  return out;
}

CopyScatter copy_scatter(const std::vector<CopyEffects>& sets) {
  CopyScatter out;
  std::vector<ScatterEvidence> edge, scale;
  for (const CopyEffects& s : sets) {
    if (s.edge_mm.size() != s.scale.size())
      throw std::invalid_argument("copy_scatter: edges and scales differ in number");
    const auto copies = static_cast<int>(s.edge_mm.size());
    if (copies < 2) continue;
    out.copies += copies;
    ++out.sets;
    edge.push_back({sample_variance(s.edge_mm), copies - 1.0, s.edge_noise_mm2});
    scale.push_back({sample_variance(s.scale), copies - 1.0, s.scale_noise});
  }
  if (out.sets == 0) return out;
  out.edge_mm = pool_scatter(edge);
  out.scale = pool_scatter(scale);
  return out;
}

CopyPrior prior_from_history(const CopyScatter& history) {
  CopyPrior out;
  if (history.copies < copies_for_history) return out;
  out.edge_sd_mm = history.edge_mm.sd;
  out.scale_sd = history.scale.sd;
  out.df = std::min(history.edge_mm.df, history.scale.df);
  out.source = "pooled from " + learn::count_text(history.copies, "copy", "copies") + " of this printer" +
               (history.sets > 1 ? " in " + std::to_string(history.sets) + " prints" : "") + ", worth " +
               shortest(out.df) + " degrees of freedom";
  return out;
}

}  // namespace fitwright
