#pragma once
// A correction as a document for programs (JSON) and for people (text).

#include <string>

#include "correct/correction.hpp"

namespace fitwright {

/// JSON of docs/formats.md, "correct": keys in that order, numbers in full precision. Ends with a line feed.
std::string correct_json(const Correction& correction);

/// The same for a person: each knob with old and new value and what it changes, what is left alone, what remains,
/// cautions before the commands they belong to. The size factor is told in the three forms programs ask for, an outline
/// offset per edge and on a diameter. Ends with a line feed.
std::string correct_text(const Correction& correction);

/// "size factor", "steps per mm, X", ... for a knob's key in State.
std::string knob_name(const std::string& knob);

/// The three forms of a size factor C: "multiply by 1.00251 = +0.251 % = shrinkage 0.250 % = size 100.251 %".
std::string size_factor_forms(double size_factor);

}  // namespace fitwright
