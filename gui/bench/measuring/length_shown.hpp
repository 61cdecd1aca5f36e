#pragma once
// Lengths while measuring as the caliper in the hand shows them: millimetres or inches.

#include <string>

namespace fitwright {

/// In hundredths of a millimetre, or in ten-thousandths of an inch: "40.12", "1.5795". No unit.
std::string length_shown(double mm, bool inches);
/// The same with a sign: "+0.12".
std::string length_signed(double mm, bool inches);
/// A reading as the caliper showed it: with one decimal more where it has one.
std::string as_read(double mm, bool inches);
/// One of the last digits that length_shown() shows, mm.
double shown_step_mm(bool inches);
/// "mm" or "in".
std::string length_unit(bool inches);

}  // namespace fitwright
