#include "correct/algebra.hpp"

#include <cmath>
#include <numbers>

namespace fitwright {
namespace {

double gain_x(const PlanarFit& fit) { return 1 + fit.scale_x; }
double gain_y(const PlanarFit& fit) { return 1 + fit.scale_y; }

/// Larger root of a d^2 - b d - c = 0: the drawn size whose printed size is wanted.
std::optional<double> larger_root(double a, double b, double c) {
  const double discriminant = b * b + 4 * a * c;
  if (!(a > 0) || discriminant < 0) return std::nullopt;
  const double d = (b + std::sqrt(discriminant)) / (2 * a);
  return d > 0 ? std::optional<double>(d) : std::nullopt;
}

double mean_round_gain(const PlanarOutcome& lengths, const RoundLaw& law) {
  return (lengths.gain_x + lengths.gain_y) / 2 - facet_loss(law.facets);
}

}  // namespace

double mean_gain(const PlanarFit& fit) { return std::sqrt(gain_x(fit) * gain_y(fit)); }

double raw_edge_mm(const State& before, const PlanarFit& fit) {
  return fit.edge_growth_mm - before.outline_offset_mm * mean_gain(fit) / before.size_factor;
}

State shrink_scaled(const State& before, const PlanarFit& fit) {
  const double q = mean_gain(fit);
  State after = before;
  after.size_factor = before.size_factor / q;
  after.steps_per_mm.x = before.steps_per_mm.x * q / gain_x(fit);
  after.steps_per_mm.y = before.steps_per_mm.y * q / gain_y(fit);
  return after;
}

State steps_scaled(const State& before, const PlanarFit& fit) {
  State after = before;
  after.steps_per_mm.x = before.steps_per_mm.x / gain_x(fit);
  after.steps_per_mm.y = before.steps_per_mm.y / gain_y(fit);
  return after;
}

State machine_scaled(const State& before, const PlanarFit& fit, const MachineScale& machine) {
  State after = before;
  after.steps_per_mm.x = before.steps_per_mm.x / (1 + machine.x);
  after.steps_per_mm.y = before.steps_per_mm.y / (1 + machine.y);
  after.size_factor = before.size_factor * std::sqrt((1 + machine.x) * (1 + machine.y)) / mean_gain(fit);
  return after;
}

State shrink_only_scaled(const State& before, const PlanarFit& fit) {
  State after = before;
  after.size_factor = before.size_factor / mean_gain(fit);
  return after;
}

double outline_offset_for(const State& before, const State& after, const PlanarFit& fit) {
  const double by_flow = before.flow_edge_gain_mm * (after.flow - before.flow);
  return -(raw_edge_mm(before, fit) + by_flow) * after.size_factor;
}

std::optional<double> flow_for_edge(const State& before, const PlanarFit& fit) {
  if (before.flow_edge_gain_mm == 0) return std::nullopt;
  return before.flow - raw_edge_mm(before, fit) / before.flow_edge_gain_mm;
}

double steps_ratio(double steps_before, double steps_after) { return steps_after / steps_before; }

PlanarOutcome outcome(const State& before, const State& after, const PlanarFit& fit) {
  const double by_size = after.size_factor / before.size_factor;
  PlanarOutcome out;
  out.gain_x = gain_x(fit) * by_size * steps_ratio(before.steps_per_mm.x, after.steps_per_mm.x);
  out.gain_y = gain_y(fit) * by_size * steps_ratio(before.steps_per_mm.y, after.steps_per_mm.y);
  const double raw = raw_edge_mm(before, fit) + before.flow_edge_gain_mm * (after.flow - before.flow);
  const double offset = after.outline_offset_mm / after.size_factor;
  out.edge_x_mm = raw + offset * out.gain_x;
  out.edge_y_mm = raw + offset * out.gain_y;
  out.edge_mm = raw + offset * std::sqrt(out.gain_x * out.gain_y);
  return out;
}

double facet_loss(int facets) { return facets > 0 ? 1 - std::cos(std::numbers::pi / facets) : 0.0; }

std::optional<double> hole_to_draw(double target_mm, const PlanarOutcome& lengths, const RoundLaw& law) {
  return larger_root(mean_round_gain(lengths, law), target_mm + law.c0_mm + 2 * lengths.edge_mm, law.c1_mm2);
}

std::optional<double> peg_to_draw(double target_mm, const PlanarOutcome& lengths, const RoundLaw& law) {
  return larger_root(mean_round_gain(lengths, law), target_mm + law.c0_mm - 2 * lengths.edge_mm, law.c1_mm2);
}

double slot_to_draw(double target_mm, double gain, double edge_mm) { return (target_mm + 2 * edge_mm) / gain; }
double tab_to_draw(double target_mm, double gain, double edge_mm) { return (target_mm - 2 * edge_mm) / gain; }

double hole_as_printed(double drawn_mm, const PlanarOutcome& lengths, const RoundLaw& law) {
  return drawn_mm * mean_round_gain(lengths, law) - 2 * lengths.edge_mm - law.c0_mm - law.c1_mm2 / drawn_mm;
}

double peg_as_printed(double drawn_mm, const PlanarOutcome& lengths, const RoundLaw& law) {
  return drawn_mm * mean_round_gain(lengths, law) + 2 * lengths.edge_mm - law.c0_mm - law.c1_mm2 / drawn_mm;
}

LayerCount whole_layers(double height_mm, double layer_height_mm, double scale_z) {
  LayerCount out;
  out.layers = static_cast<int>(std::lround(height_mm / (1 + scale_z) / layer_height_mm));
  out.printed_height_mm = out.layers * layer_height_mm * (1 + scale_z);
  return out;
}

State rescaled(const State& material, double rho_x, double rho_y) {
  const double rho = std::sqrt(rho_x * rho_y);
  State out = material;
  out.size_factor /= rho;
  out.outline_offset_mm /= rho;
  return out;
}

Reexpressed reexpressed(const State& material, double rho_x, double rho_y) {
  if (material.size_factor == 1.0) return {material, true};
  return {rescaled(material, rho_x, rho_y), false};
}

}  // namespace fitwright
