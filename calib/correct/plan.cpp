#include "correct/plan.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "correct/evidence.hpp"
#include "stats/intervals.hpp"

namespace fitwright {
namespace {

bool shared_acted_on(const Plan& plan) { return plan.scale == ScalePart::shared || plan.scale == ScalePart::both; }

MachineScale machine_acted_on(const Plan& plan, const MachineScale& machine) {
  return {plan.machine_x ? machine.x : 0.0, plan.machine_y ? machine.y : 0.0};
}

State scaled(const Plan& plan, const State& before, const Errors& errors) {
  const PlanarFit part = acted_on(plan, errors.fit);
  switch (plan.policy) {
    case Policy::shrink: {
      State after = shrink_scaled(before, part);
      // What is not acted on stays to the last bit.
      if (!shared_acted_on(plan)) after.size_factor = before.size_factor;
      if (plan.scale == ScalePart::shared) after.steps_per_mm = before.steps_per_mm;
      return after;
    }
    case Policy::steps:
      return steps_scaled(before, part);
    case Policy::shrink_only:
      return shrink_only_scaled(before, part);
    case Policy::machine: {
      State after = machine_scaled(before, part, machine_acted_on(plan, errors.machine));
      if (!shared_acted_on(plan)) after.size_factor = before.size_factor;
      return after;
    }
  }
  return before;
}

}  // namespace

ErrorVector as_vector(const Errors& e) {
  return {e.fit.scale_x, e.fit.scale_y, e.fit.edge_growth_mm, e.scale_z, e.z0_mm,
          e.machine.x,   e.machine.y,   e.machine_z,          e.flow,    e.edge_gain_mm};
}

Errors from_vector(const ErrorVector& v) { return {{v[0], v[1], v[2]}, v[3], v[4], {v[5], v[6]}, v[7], v[8], v[9]}; }

PlanarFit acted_on(const Plan& plan, const PlanarFit& fit) {
  PlanarFit part;
  const double q = mean_gain(fit);
  switch (plan.scale) {
    case ScalePart::none:
      part.scale_x = plan.only_x ? fit.scale_x : 0.0;
      part.scale_y = plan.only_y ? fit.scale_y : 0.0;
      break;
    case ScalePart::shared:
      part.scale_x = part.scale_y = q - 1;
      break;
    case ScalePart::difference:
      part.scale_x = (1 + fit.scale_x) / q - 1;
      part.scale_y = (1 + fit.scale_y) / q - 1;
      break;
    case ScalePart::both:
      part.scale_x = fit.scale_x;
      part.scale_y = fit.scale_y;
      break;
  }
  return part;
}

State carried_out(const Plan& plan, const State& before, const Errors& errors) {
  State after = scaled(plan, before, errors);
  if (plan.machine_z)
    after.steps_per_mm.z = before.steps_per_mm.z / (1 + errors.machine_z);
  else if (plan.steps_z)
    after.steps_per_mm.z = before.steps_per_mm.z / (1 + errors.scale_z);
  if (plan.z_offset) after.z_offset_mm = before.z_offset_mm - errors.z0_mm;
  if (plan.flow) after.flow = errors.flow;
  if (plan.edge) {
    State with_gain = before;
    with_gain.flow_edge_gain_mm = errors.edge_gain_mm;
    after.outline_offset_mm = outline_offset_for(with_gain, after, errors.fit);
  }
  return after;
}

std::map<std::string, double> left_over(const State& before, const State& after, const Errors& errors) {
  constexpr double outside = 100;
  constexpr double slot = 20;
  State with_gain = before;
  with_gain.flow_edge_gain_mm = errors.edge_gain_mm;
  const PlanarOutcome o = outcome(with_gain, after, errors.fit);
  return {{"x100", outside * (o.gain_x - 1) + 2 * o.edge_x_mm},
          {"y100", outside * (o.gain_y - 1) + 2 * o.edge_y_mm},
          {"slot_x20", slot * (o.gain_x - 1) - 2 * o.edge_x_mm},
          {"slot_y20", slot * (o.gain_y - 1) - 2 * o.edge_y_mm}};
}

ErrorVector slopes(const UncertainErrors& errors, const std::function<double(const Errors&)>& f) {
  constexpr double step = 1e-5;  // of a ratio or mm: the functions are nearly straight over it
  const ErrorVector centre = as_vector(errors.value);
  ErrorVector slope{};
  for (std::size_t i = 0; i < error_count; ++i) {
    if (errors.covariance[i][i] == 0) continue;
    ErrorVector up = centre;
    ErrorVector down = centre;
    up[i] += step;
    down[i] -= step;
    slope[i] = (f(from_vector(up)) - f(from_vector(down))) / (up[i] - down[i]);
  }
  return slope;
}

Propagated propagate(const UncertainErrors& errors, const std::function<double(const Errors&)>& f) {
  const ErrorVector slope = slopes(errors, f);
  double variance = 0;
  std::vector<Contribution> of_readings;  // uncertain by one and the same scatter
  std::vector<Contribution> others;
  for (std::size_t i = 0; i < error_count; ++i) {
    for (std::size_t j = 0; j < error_count; ++j) variance += slope[i] * errors.covariance[i][j] * slope[j];
    const double u = std::abs(slope[i]) * std::sqrt(errors.covariance[i][i]);
    if (u > 0) (i <= error_at::z0 ? of_readings : others).push_back({u, errors.df[i]});
  }
  if (!std::isfinite(variance)) return {variance, 1};
  if (!of_readings.empty()) others.push_back({combined_uncertainty(of_readings), shared_scatter_df(of_readings)});
  return {std::sqrt(std::max(variance, 0.0)), welch_satterthwaite_df(others)};
}

void require_corrected_once(const Plan& plan, const State& before, const State& after, const Errors& errors) {
  constexpr double rounding = 1e-12;
  const PlanarOutcome o = outcome(before, after, acted_on(plan, errors.fit));
  const auto is_one = [](double value) { return std::abs(value - 1) < rounding; };
  bool right = true;
  switch (plan.policy) {
    case Policy::shrink:
    case Policy::steps:
      right = is_one(o.gain_x) && is_one(o.gain_y);
      break;
    case Policy::machine:
      right = !shared_acted_on(plan) || is_one(o.gain_x * o.gain_y);
      break;
    case Policy::shrink_only:
      right = is_one(o.gain_x * o.gain_y);
      break;
  }
  if (!right) throw std::logic_error("a correction of scale does not correct exactly once");
}

}  // namespace fitwright
