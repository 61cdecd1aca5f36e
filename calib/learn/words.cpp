#include "learn/words.hpp"

#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"

namespace fitwright::learn {
namespace {

std::string sign_of(double value) { return std::signbit(value) ? "-" : "+"; }

std::string digits(double value) {
  constexpr double shows_in_two = 0.005;
  const double size = std::abs(value);
  return said_fixed(size, size < shows_in_two ? 3 : 2);
}

}  // namespace

std::string mm_text(double length_mm) { return digits(length_mm) + " mm"; }

std::string signed_mm_text(double length_mm) { return sign_of(length_mm) + mm_text(length_mm); }

std::string percent_text(double ratio) { return digits(100 * ratio) + " %"; }

std::string signed_percent_text(double ratio) { return sign_of(ratio) + percent_text(ratio); }

std::string count_text(int count, const std::string& one, const std::string& many) {
  return count == 1 ? "one " + one : std::to_string(count) + ' ' + many;
}

}  // namespace fitwright::learn
