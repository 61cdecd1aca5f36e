#pragma once
// The record of the demo: five weeks at the tool library, printed and read by the practice printer.

#include <string>

namespace fitwright {

/// The record as its JSON file (docs/formats.md): the same each time, ids and dates included. Throws std::logic_error
/// when a step of the story does not work (a defect).
std::string make_demo_record();

}  // namespace fitwright
