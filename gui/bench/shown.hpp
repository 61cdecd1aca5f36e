#pragma once
// Numbers and words as people read them on the screen: true minus sign, no more digits than the uncertainty carries.

#include <string>
#include <string_view>

#include "base/words.hpp"
#include "reading/feature.hpp"

namespace fitwright {

/// `value` with `decimals` places and a true minus sign.
std::string shown(double value, int decimals);
/// The same with '+' before positive values; zero carries no sign.
std::string shown_signed(double value, int decimals);
/// `value` in the shortest form that is exact, with a true minus sign.
std::string shown_exact(double value);

/// What a person calls a kind ("slot", "lying hole"), and back: takes the file's word too. Empty when it is none.
std::string_view spoken(Kind kind);
std::optional<Kind> kind_from_speech(std::string_view text);
/// "X", "Y", "Z", "XY", or nothing for steel and walls.
std::string_view spoken(Axis axis);
std::optional<Axis> axis_from_speech(std::string_view text);

/// A feature's label, as a coupon or a file has it, in the chosen language where the catalogue has it.
std::string label_words(const std::string& label);

/// The first letter a capital, where it is an ASCII one.
std::string capitalised(std::string text);
/// "1st", "2nd", "3rd", "4th".
std::string ordinal(int number);
/// Being replaced by said_many(): English only.
std::string counted(std::size_t number, std::string_view one, std::string_view many);
/// A sentence as it is set: '-' before digits becomes a true minus sign, and a number is kept on one line with its
/// uncertainty and unit by no-break spaces.
std::string typeset(std::string_view text);

/// `text` without blanks at its ends, ASCII letters in lower case.
std::string folded(std::string_view text);

}  // namespace fitwright
