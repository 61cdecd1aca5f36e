#pragma once
// Steps per mm from how an axis is built: motor, driver, belt and pulley or screw.

#include <optional>

#include "base/result.hpp"

namespace fitwright {

/// One axis's drive. Either belt (pitch and teeth) or screw (lead), with an optional reduction before it.
struct Drive {
  double full_steps_per_turn = 200;     ///< 360 / step angle: 1.8 degrees gives 200, 0.9 degrees 400
  double microsteps = 16;               ///< per full step, as set on the driver
  std::optional<double> belt_pitch_mm;  ///< between teeth of the belt
  std::optional<double> pulley_teeth;
  std::optional<double> screw_lead_mm;  ///< travel per turn of the screw (pitch times starts)
  double reduction = 1;                 ///< motor turns per turn of the pulley or screw
};

/// Steps for 1 mm of travel: full steps x microsteps x reduction / travel per turn.
/// Errors: Code::usage when neither or both of belt and screw are given, or a number is not above 0.
Result<double> theory_steps_per_mm(const Drive& drive);

/// Standard uncertainty, as a ratio, of steps from theory: belts stretch and pulleys are not perfectly round (0.05 %,
/// common practice, no source). Theory is no measurement.
inline constexpr double theory_u = 0.0005;

/// A change that ends further from theory than this is more than belts and pulleys do (common practice, no source).
inline constexpr double theory_limit = 0.005;

}  // namespace fitwright
