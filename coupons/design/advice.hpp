#pragma once
// What to do before printing and before measuring, and where something can hurt: one wording for every output.

#include <array>
#include <string>
#include <vector>

#include "design/design.hpp"

namespace fitwright {

/// Lines for the time before the print: those of every design, then the coupon's own.
std::vector<std::string> before_printing(const Coupon& coupon);
/// Lines for the time before the first reading: those of every design, then the coupon's own.
std::vector<std::string> before_measuring(const Coupon& coupon);

/// Lines for the time before the first trial; empty for coupons that are measured only.
std::vector<std::string> before_trying(const Coupon& coupon);
/// Where trying can hurt; empty for coupons that are measured only.
std::vector<std::string> trying_cautions(const Coupon& coupon);

/// One grade of a fit on the plain scale: its number and how the part goes in, for people.
struct GradeWords {
  int grade = 0;
  const char* felt = nullptr;  ///< say tr() at its use
  const char* how = nullptr;   ///< the test for it; say tr() at its use
};
const std::array<GradeWords, 5>& grade_words();

/// For where the part leaves the bed.
std::string taking_off_caution();
/// For where the part is taken in hand.
std::string lip_caution();

}  // namespace fitwright
