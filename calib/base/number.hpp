#pragma once
// Numbers to and from text, the same on every machine whatever its locale.

#include <optional>
#include <string>
#include <string_view>

namespace fitwright {

/// A finite decimal number filling the whole of `text` (surrounding blanks allowed, leading '+' allowed);
/// `decimal_comma` takes ',' in place of '.'. Empty when it is not one ("", "1e999", "nan", "4 0", "1.2.3").
std::optional<double> parse_number(std::string_view text, bool decimal_comma = false);

/// A whole number filling the whole of `text`, or empty.
std::optional<int> parse_whole(std::string_view text);

/// The shortest decimal text that reads back to exactly `value`.
std::string shortest(double value);

/// `value` with exactly `decimals` places; never "-0.00".
std::string fixed(double value, int decimals);

/// Decimals to show so that a standard uncertainty `u` keeps two significant digits (GUM, JCGM 100:2008, 7.2.6),
/// within 0..`most`. A u of zero or not finite gives `most`.
int decimals_for(double u, int most = 6);

}  // namespace fitwright
