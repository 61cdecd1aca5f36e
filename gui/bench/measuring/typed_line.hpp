#pragma once
// A line as fingers or a cabled caliper type it, read as a length.

#include <string>
#include <string_view>

#include "base/result.hpp"

namespace fitwright {

/// mm from "40.12", "40,12", "+40.12 mm", "0040.12", "1.5795 in", "1.5795\"", with blanks and line ends around it. A
/// number without a unit is in inches when `inches` says so. There is no thousands separator: "1,234.5" is refused, as
/// is everything that could mean two things. Errors: Code::bad_input, quoting the line.
Result<double> length_from_line(std::string_view text, bool inches);

}  // namespace fitwright
