#pragma once
// What is known of the machine's axes themselves: how far they went, and how they are driven.

#include <map>
#include <string>
#include <vector>

#include "correct/correction.hpp"
#include "correct/theory.hpp"
#include "words.hpp"

namespace fitw {

/// --travel x=COMMANDED:TRAVELLED,y=...
void declare_travel(Words& words);
std::map<char, fitwright::Travel> take_travel(Words& words);

/// --drive x=teeth:20,pitch:2,microsteps:16 (or lead:8 for a screw); may be given again.
void declare_drive(Words& words);
std::map<char, fitwright::Drive> take_drive(Words& words);

/// For each driven axis, what theory gives beside the steps in force.
std::vector<std::string> theory_notes(const std::map<char, fitwright::Drive>& drives,
                                      const fitwright::StepsPerMm& in_force);

}  // namespace fitw
