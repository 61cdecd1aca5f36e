#include "correct/phrase.hpp"

#include <array>
#include <cmath>

#include "base/number.hpp"

namespace fitwright {
namespace {

constexpr double per_cent = 100;

std::string with_sign(double value, const std::string& text) { return (value < 0 ? "-" : "+") + text; }

/// Two decimals, three when two would hide all of it.
std::string few_digits(double value) {
  constexpr double least_shown = 0.005;
  const double size = std::abs(value);
  return fixed(size, size > 0 && size < least_shown ? 3 : 2);
}

std::string bracketed(double half_width, const std::string& unit) {
  return half_width > 0 ? "(± " + few_digits(half_width) + ' ' + unit + ')' : "(exact)";
}

}  // namespace

std::string percent(double ratio) { return few_digits(per_cent * ratio) + " %"; }
std::string signed_percent(double ratio) { return with_sign(ratio, percent(ratio)); }
std::string mm(double length_mm) { return few_digits(length_mm) + " mm"; }
std::string signed_mm(double length_mm) { return with_sign(length_mm, mm(length_mm)); }
std::string within_percent(const Evidence& e) { return bracketed(per_cent * e.half_width(), "%"); }
std::string within_mm(const Evidence& e) { return bracketed(e.half_width(), "mm"); }
std::string within(double half_width_mm) { return bracketed(half_width_mm, "mm"); }
std::string length(double length_mm) { return shortest(length_mm) + " mm"; }

std::string axis_name(char axis) { return std::string(1, static_cast<char>(axis - 'x' + 'X')); }

std::string short_or_long(double scale) { return scale < 0 ? "short" : "long"; }

std::string copies(int count) {
  constexpr std::array<const char*, 4> words{"no copy", "one copy", "two copies", "three copies"};
  if (count >= 0 && count < static_cast<int>(words.size())) return words[static_cast<std::size_t>(count)];
  return std::to_string(count) + " copies";
}

std::string rests_on(const Estimates& estimates) {
  const int features = estimates.counts.features;
  return std::to_string(features) + (features == 1 ? " feature" : " features") + " on " +
         copies(estimates.counts.copies);
}

}  // namespace fitwright
