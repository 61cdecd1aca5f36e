#pragma once
// A trials file to be filled in: a row for each time a part is tried in a place, its grade empty.

#include <string>

#include "design/design.hpp"

namespace fitwright {

/// CSV text of docs/formats.md (trials): copy by copy, for each of the printed parts in turn, the places from the
/// loosest to the tightest. Grades and measured clearances are empty. Throws std::logic_error for less than one copy,
/// or a coupon without places to be tried.
std::string trials_template(const Coupon& coupon, int copies = 1);

}  // namespace fitwright
