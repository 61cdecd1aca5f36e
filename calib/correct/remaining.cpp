#include "correct/remaining.hpp"

#include <array>
#include <cmath>

namespace fitwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// The estimates behind the first places of an ErrorVector.
constexpr std::array<const char*, 5> estimated{name::scale_x, name::scale_y, name::edge_growth, name::scale_z,
                                               name::z0};
constexpr std::size_t others = error_count - estimated.size();
/// Taken as certain (see UncertaintyPart).
constexpr double certain_df = 1e9;

/// Parts over the estimates, then the other errors, then one place for what no reading shows.
std::vector<UncertaintyPart> widened_parts(const Estimates& estimates, const UncertainErrors& errors, double beyond) {
  const auto n = static_cast<Index>(estimates.parameters.size());
  const Index size = n + static_cast<Index>(others) + 1;
  std::vector<UncertaintyPart> parts;
  const auto add = [&]() -> UncertaintyPart& {
    return parts.emplace_back(UncertaintyPart{MatrixXd::Zero(size, size), VectorXd::Constant(size, certain_df)});
  };
  for (const UncertaintyPart& p : parts_of(estimates)) {
    UncertaintyPart& q = add();
    q.covariance.topLeftCorner(n, n) = p.covariance;
    q.df.head(n) = p.df;
    q.is_prior = p.is_prior;
    q.assumed_copies = p.assumed_copies;
  }
  for (std::size_t k = 0; k < others; ++k) {
    const std::size_t i = estimated.size() + k;
    const Index at = n + static_cast<Index>(k);
    add().covariance(at, at) = errors.covariance[i][i];
  }
  add().covariance(size - 1, size - 1) = beyond * beyond;
  return parts;
}

Remains of_place(double value, const ErrorVector& slopes, const Estimates& estimates, const UncertainErrors& errors,
                 const std::vector<BeyondReadings>& beyond) {
  Remains out;
  out.value = value;
  Contrast on_estimates;
  for (std::size_t i = 0; i < estimated.size(); ++i) {
    if (slopes[i] == 0) continue;
    const Parameter* p = estimates.find(estimated[i]);
    if (!p) continue;
    on_estimates[p->name] = slopes[i];
    if (!std::isfinite(p->u)) {
      out.u = out.lower = out.upper = out.u_with_surroundings = out.half_with_surroundings_mm = p->u;
      out.df = 1;
      return out;
    }
  }
  const auto n = static_cast<Index>(estimates.parameters.size());
  VectorXd weights = VectorXd::Zero(n + static_cast<Index>(others) + 1);
  for (const auto& [name, slope] : on_estimates) weights[estimates.find(name) - estimates.parameters.data()] = slope;
  for (std::size_t k = 0; k < others; ++k) weights[n + static_cast<Index>(k)] = slopes[estimated.size() + k];

  const auto parts = widened_parts(estimates, errors, u_beyond(beyond, on_estimates));
  const ContrastEstimate readings = uncertainty_of(parts, weights);
  weights[weights.size() - 1] = 1;
  const ContrastEstimate all = uncertainty_of(parts, weights);
  out.u = readings.u;
  out.df = readings.df;
  out.lower = value - readings.half_width;
  out.upper = value + readings.half_width;
  out.u_with_surroundings = all.u;
  out.half_with_surroundings_mm = all.half_width;
  return out;
}

}  // namespace

std::map<std::string, Remains> remaining(const State& before, const State& after, const Estimates& estimates,
                                         const UncertainErrors& errors, const std::vector<BeyondReadings>& beyond) {
  std::map<std::string, Remains> out;
  for (const auto& [place, value] : left_over(before, after, errors.value)) {
    const std::string& key = place;
    const ErrorVector by_error = slopes(errors, [&](const Errors& e) { return left_over(before, after, e).at(key); });
    out[place] = of_place(value, by_error, estimates, errors, beyond);
  }
  return out;
}

}  // namespace fitwright
