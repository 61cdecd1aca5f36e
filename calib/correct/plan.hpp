#pragma once
// Which errors a correction acts on (the plan), and what state that gives, as a function of the errors themselves, so
// that their uncertainty can be carried through it.

#include <array>
#include <functional>
#include <map>
#include <string>

#include "correct/algebra.hpp"
#include "correct/correction.hpp"

namespace fitwright {

/// The numbers a correction is made from.
struct Errors {
  PlanarFit fit;
  double scale_z = 0;
  double z0_mm = 0;
  MachineScale machine;  ///< from measured travel
  double machine_z = 0;
  double flow = 1;          ///< setting that the flow test asks for
  double edge_gain_mm = 0;  ///< beta
};

/// Places of the errors in an ErrorVector.
namespace error_at {
enum : std::size_t { scale_x, scale_y, edge, scale_z, z0, machine_x, machine_y, machine_z, flow, edge_gain, count };
}
inline constexpr std::size_t error_count = error_at::count;
using ErrorVector = std::array<double, error_count>;
using ErrorMatrix = std::array<ErrorVector, error_count>;

/// Errors with covariance and degrees of freedom of each.
struct UncertainErrors {
  Errors value;
  ErrorMatrix covariance{};
  ErrorVector df{};
};

ErrorVector as_vector(const Errors& errors);
Errors from_vector(const ErrorVector& vector);

/// Which part of the scale of X and Y is acted on.
enum class ScalePart { none, shared, difference, both };

struct Plan {
  Policy policy = Policy::shrink;
  ScalePart scale = ScalePart::none;
  bool only_x = false, only_y = false;  ///< steps policy: this axis alone, by its own scale
  bool machine_x = false, machine_y = false, machine_z = false;
  bool steps_z = false;
  bool z_offset = false;
  bool flow = false;
  bool edge = false;
};

/// The part of the scales that the plan acts on; what is not acted on is 0.
PlanarFit acted_on(const Plan& plan, const PlanarFit& fit);

/// The state after the plan is carried out.
State carried_out(const Plan& plan, const State& before, const Errors& errors);

/// Errors of lengths in state `after`: "x100", "y100" (outsides), "slot_x20", "slot_y20", mm.
std::map<std::string, double> left_over(const State& before, const State& after, const Errors& errors);

/// Slopes of f(errors) by each uncertain error, by differences; 0 for those that are certain.
ErrorVector slopes(const UncertainErrors& errors, const std::function<double(const Errors&)>& f);

/// Standard uncertainty and effective degrees of freedom of f(errors), by first-order propagation with the full
/// covariance (JCGM 100:2008, 5.2.2; degrees of freedom G.4.1, but shared_scatter_df among the estimates).
struct Propagated {
  double u = 0;
  double df = 0;
};
Propagated propagate(const UncertainErrors& errors, const std::function<double(const Errors&)>& f);

/// Throws std::logic_error unless what the plan acts on is made right exactly once: (mu'/mu)(C'/C)(1 + s) = 1 for the
/// part of the scale acted on, on each axis (shrink, steps) or in the geometric mean (machine, shrink only).
void require_corrected_once(const Plan& plan, const State& before, const State& after, const Errors& errors);

}  // namespace fitwright
