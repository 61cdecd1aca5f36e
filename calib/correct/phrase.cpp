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

/// The same for percent, where tens need no decimals.
std::string few_percent(double value) {
  constexpr double large = 9.995;
  return std::abs(value) >= large ? fixed(std::abs(value), 0) : few_digits(value);
}

std::string bracketed(double half_width, const std::string& shown, const char* unit) {
  return half_width > 0 ? "(± " + shown + ' ' + unit + ')' : "(exact)";
}

}  // namespace

std::string percent(double ratio) { return few_percent(per_cent * ratio) + " %"; }
std::string signed_percent(double ratio) { return with_sign(ratio, percent(ratio)); }
std::string mm(double length_mm) { return few_digits(length_mm) + " mm"; }
std::string signed_mm(double length_mm) { return with_sign(length_mm, mm(length_mm)); }
std::string within_percent(const Evidence& e) {
  return bracketed(e.half_width(), few_percent(per_cent * e.half_width()), "%");
}
std::string within_mm(const Evidence& e) { return within(e.half_width()); }
std::string within(double half_width_mm) { return bracketed(half_width_mm, few_digits(half_width_mm), "mm"); }
std::string length(double length_mm) { return shortest(length_mm) + " mm"; }

std::string axis_name(char axis) { return std::string(1, static_cast<char>(axis - 'x' + 'X')); }

std::string plain_name(const std::string& parameter) {
  if (parameter == name::scale_x) return "the scale of X";
  if (parameter == name::scale_y) return "the scale of Y";
  if (parameter == name::scale_z) return "the scale of Z";
  if (parameter == name::edge_growth) return "edge growth";
  if (parameter == name::z0) return "the height offset";
  return parameter;
}

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
