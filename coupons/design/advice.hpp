#pragma once
// What to do before printing and before measuring, and where something can hurt: one wording for every output.

#include <string>
#include <vector>

#include "design/design.hpp"

namespace fitwright {

/// Lines for the time before the print: those of every design, then the coupon's own.
std::vector<std::string> before_printing(const Coupon& coupon);
/// Lines for the time before the first reading: those of every design, then the coupon's own.
std::vector<std::string> before_measuring(const Coupon& coupon);

/// For where the part leaves the bed.
std::string taking_off_caution();
/// For where the part is taken in hand.
std::string lip_caution();

}  // namespace fitwright
