#pragma once
// What the sheet says: before printing, before measuring, and what is measured.

#include <string>
#include <vector>

#include "design/design.hpp"

namespace fitwright {

/// Lines to tick off.
std::vector<std::string> before_printing(const Coupon& coupon);
std::vector<std::string> before_measuring(const Coupon& coupon);

/// Where something can hurt.
std::string taking_off_caution();
std::string lip_caution();

/// Why the next copy is turned.
std::string turning_words();

/// "slot", "height, 25 layers", "hole; 1st along X, 2nd along Y": what is between the jaws.
std::string kind_words(const Feature& feature);

}  // namespace fitwright
