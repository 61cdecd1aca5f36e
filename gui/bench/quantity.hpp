#pragma once
// Numbers typed into a field with their unit.

#include <string>
#include <string_view>

#include "base/result.hpp"

namespace fitwright {

enum class Unit { none, mm, steps_per_mm, celsius, g_per_cm3, per_kg };

/// "80 steps/mm", "220 mm": as it stands in the field.
std::string in_field(double value, Unit unit);

/// The number typed, in the field's unit, which may be typed or not ("80", "80 steps/mm", "0,4 mm"); a length may be
/// in inches ("8.66 in"), one without a unit is when `inches` says so. Errors: Code::bad_input, quoting what was typed.
Result<double> from_field(std::string_view typed, Unit unit, bool inches = false);

}  // namespace fitwright
