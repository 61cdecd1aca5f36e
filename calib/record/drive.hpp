#pragma once
// How the axes of a printer are driven, as the record keeps it: a JSON object by axis.

#include <map>
#include <string>

#include "base/result.hpp"
#include "correct/theory.hpp"

namespace fitwright::record {

/// By axis, 'x', 'y' or 'z'. A drive may be known in part: theory_steps_per_mm() says what is missing.
using Drives = std::map<char, Drive>;

/// Reads {"x":{"full_steps_per_turn":200,"microsteps":16,"belt_pitch_mm":2,"pulley_teeth":20}}: keys are the members of
/// Drive, each may be left out. Empty text is no drive. Errors, all at once: Code::bad_input for what is not JSON, an
/// axis or key that is not known, a value that is not a number.
Result<Drives> parse_drives(const std::string& json, const std::string& source);

/// As JSON, shortest round-trip numbers, keys in a fixed order; empty text for no drive at all.
std::string to_json(const Drives& drives);

}  // namespace fitwright::record
