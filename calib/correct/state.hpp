#pragma once
// The settings a coupon was printed with, and the same after a correction.

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"

namespace fitwright {

struct StepsPerMm {
  double x = 80, y = 80, z = 400, e = 93;
};

/// Settings in force. Defaults are those of the contract (docs/formats.md).
struct State {
  double size_factor = 1.0;        ///< C: multiplies the model in plane
  double outline_offset_mm = 0.0;  ///< X: added to each outline edge, after C
  double flow = 1.0;               ///< F: ratio
  StepsPerMm steps_per_mm;
  double bead_width_mm = 0.45;
  double layer_height_mm = 0.2;
  double first_layer_height_mm = 0.2;
  double first_layer_inset_mm = 0.0;
  double hole_offset_mm = 0.0;
  double z_offset_mm = 0.0;
  double flow_edge_gain_mm = 0.4;  ///< beta: mm of edge growth per edge per unit of F
};

/// Reads a state from JSON text. Missing keys take their defaults; an unknown key, a wrong type or a value outside
/// its range is Code::bad_input with line and column. `source` names the text in messages.
Result<State> parse_state(const std::string& json, const std::string& source);

/// The state as JSON text (all keys, contract order, shortest round-trip numbers).
std::string to_json(const State& state);

/// The numbers of a state by their names, in the order of its JSON text: "size_factor", "steps_per_mm.x", ...
std::vector<std::pair<std::string_view, double>> by_knob(const State& state);
/// Sets one of them. Throws std::logic_error for a name that by_knob() does not give.
void set_knob(State& state, std::string_view knob, double value);

}  // namespace fitwright
