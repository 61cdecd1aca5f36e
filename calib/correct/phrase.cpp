#include "correct/phrase.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"

namespace fitwright {
namespace {

constexpr double per_cent = 100;

std::string with_sign(double value, const std::string& text) { return (value < 0 ? "-" : "+") + text; }

/// Two decimals, three when two would hide all of it.
std::string few_digits(double value) {
  constexpr double least_shown = 0.005;
  const double size = std::abs(value);
  return said_fixed(size, size > 0 && size < least_shown ? 3 : 2);
}

/// The same for percent, where tens need no decimals.
std::string few_percent(double value) {
  constexpr double large = 9.995;
  return std::abs(value) >= large ? said_fixed(std::abs(value), 0) : few_digits(value);
}

std::string bracketed(double half_width, const std::string& shown, const char* unit) {
  return half_width > 0 ? "(± " + shown + ' ' + unit + ')' : tr("(exact)");
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
std::string length(double length_mm) { return said_shortest(length_mm) + " mm"; }

std::string axis_name(char axis) { return std::string(1, static_cast<char>(axis - 'x' + 'X')); }

std::string plain_name(const std::string& parameter) {
  if (parameter == name::scale_x) return tr("the scale of X");
  if (parameter == name::scale_y) return tr("the scale of Y");
  if (parameter == name::scale_z) return tr("the scale of Z");
  if (parameter == name::edge_growth) return tr("edge growth");
  if (parameter == name::z0) return tr("the height offset");
  return parameter;
}

std::string copies(int count) {
  constexpr std::array<const char*, 4> words{noted("no copy"), noted("one copy"), noted("two copies"),
                                             noted("three copies")};
  if (count >= 0 && count < static_cast<int>(words.size())) return tr(words[static_cast<std::size_t>(count)]);
  return said("{} copies", count);  // more than three
}

std::string rests_on(const Estimates& estimates) {
  const int features = estimates.counts.features;
  return said_many("{} feature on {}", "{} features on {}", static_cast<std::size_t>(std::max(features, 0)),
                   copies(estimates.counts.copies));
}

}  // namespace fitwright
