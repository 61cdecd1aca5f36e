#pragma once
// How numbers stand in the sentences of findings and corrections: few digits, one unit, intervals at 95 %.

#include <string>

#include "correct/evidence.hpp"

namespace fitwright {

/// A ratio in percent, two decimals, without sign: "0.35 %".
std::string percent(double ratio);
/// The same with its sign: "+0.35 %".
std::string signed_percent(double ratio);
/// A length in mm, two decimals (three when it would read 0.00), without sign: "0.08 mm".
std::string mm(double length_mm);
/// The same with its sign.
std::string signed_mm(double length_mm);
/// Half-width of the 95 % interval: "(± 0.10 %)", "(± 0.02 mm)"; for a value without uncertainty "(exact)".
std::string within_percent(const Evidence& evidence);
std::string within_mm(const Evidence& evidence);
std::string within(double half_width_mm);
/// A length the user gave: "100 mm", "37.5 mm".
std::string length(double length_mm);
/// "X", "Y", "Z" for 'x', 'y', 'z'.
std::string axis_name(char axis);
/// "the scale of X", "edge growth", "the height offset": a parameter within a sentence.
std::string plain_name(const std::string& parameter);
/// "one copy", "3 copies".
std::string copies(int count);
/// Copies and features that the estimates rest on: "12 features on one copy".
std::string rests_on(const Estimates& estimates);

}  // namespace fitwright
