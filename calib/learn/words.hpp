#pragma once
// How numbers stand in the sentences of this part: few digits, one unit.

#include <string>

namespace fitwright::learn {

/// A length, two decimals (three when two would show nothing of it), without sign: "0.08 mm".
std::string mm_text(double length_mm);
/// The same with its sign: "+0.08 mm".
std::string signed_mm_text(double length_mm);
/// A ratio in percent, two decimals, without sign: "0.35 %".
std::string percent_text(double ratio);
/// The same with its sign.
std::string signed_percent_text(double ratio);
/// "one copy", "3 copies"; `many` is the plural.
std::string count_text(int count, const std::string& one, const std::string& many);

}  // namespace fitwright::learn
