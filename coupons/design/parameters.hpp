#pragma once
// Parameters of designs: those that several share, and from NAME=VALUE texts to checked values.

#include <string>
#include <utility>
#include <vector>

#include "design/design.hpp"

namespace fitwright {

namespace param {
inline constexpr const char* side = "side_mm";
inline constexpr const char* caliper_range = "caliper_range_mm";
inline constexpr const char* bed_x = "bed_x_mm";
inline constexpr const char* bed_y = "bed_y_mm";
inline constexpr const char* layer_height = "layer_height_mm";
inline constexpr const char* first_layer_height = "first_layer_height_mm";
inline constexpr const char* bead_width = "bead_width_mm";
inline constexpr const char* density = "density_g_cm3";
}  // namespace param

/// `own` followed by the parameters that every design has: caliper, bed, layers, bead, density.
std::vector<DesignParameter> with_setup(std::vector<DesignParameter> own);

/// Every parameter of the design at its default, then as typed. Errors, all at once: Code::usage for a name the design
/// does not have, one given twice, or a text that is not a number; Code::bad_input for a value out of range or not
/// whole where it must be.
Result<DesignValues> parse_values(const DesignInfo& info,
                                  const std::vector<std::pair<std::string, std::string>>& overrides);

/// "NAME = VALUE", for messages about a value.
std::string named_value(const std::string& name, double value);

}  // namespace fitwright
