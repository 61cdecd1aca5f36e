#include "report/wording.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include "base/number.hpp"
#include "base/words.hpp"
#include "model/estimates.hpp"
#include "stats/intervals.hpp"

namespace fitwright {
namespace {

constexpr double percent = 100.0;  // % per unit ratio
constexpr double degrees_per_rad = 180.0 / std::numbers::pi;

struct Entry {
  std::string_view parameter;
  const char* name;
  std::string_view unit;
  double per_unit;
};

constexpr std::array<Entry, 23> entries{{
    {name::scale_x, noted("scale along X"), "%", percent},
    {name::scale_y, noted("scale along Y"), "%", percent},
    {name::scale_z, noted("scale along Z"), "%", percent},
    {name::edge_growth, noted("edge growth"), "mm", 1},
    {name::z0, noted("height offset"), "mm", 1},
    {name::flare, noted("flare of the first layers"), "mm", 1},
    {name::caliper_zero, noted("caliper zero"), "mm", 1},
    {name::inside_bias, noted("inside jaws' bias"), "mm", 1},
    {name::hole_c0, noted("hole closing, constant"), "mm", 1},
    {name::hole_c1, noted("hole closing, by 1/diameter"), "mm²", 1},
    {name::holeh_c0, noted("lying hole closing, constant"), "mm", 1},
    {name::holeh_c1, noted("lying hole closing, by 1/diameter"), "mm²", 1},
    {name::peg_p0, noted("peg pull-in, constant"), "mm", 1},
    {name::peg_p1, noted("peg pull-in, by 1/diameter"), "mm²", 1},
    {name::skew_xy, noted("corner off square"), "°", degrees_per_rad},
    {name::wall, noted("one-bead wall"), "mm", 1},
    {"jaw_flat_squared_half_mm2", noted("half the square of the inside jaws' flat"), "mm²", 1},
    {"reading_mm", noted("one reading against the next, same place"), "mm", 1},
    {"feature_mm", noted("one feature against the model, all copies alike"), "mm", 1},
    {"feature_copy_mm", noted("one feature on one copy"), "mm", 1},
    {"round_mm", noted("one hole or peg against the model"), "mm", 1},
    {"copy_edge_mm", noted("edge growth from copy to copy"), "mm", 1},
    {"copy_scale", noted("scale from copy to copy"), "%", percent},
}};

bool is_name_character(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

/// Calls `word(token)` for each name in an expression and `other(character)` for the rest. A token that starts with a
/// digit is a number, not a name.
template <class OnName, class OnOther>
void walk(const std::string& expression, OnName on_name, OnOther on_other) {
  for (std::size_t i = 0; i < expression.size();) {
    if (!is_name_character(expression[i])) {
      on_other(expression[i++]);
      continue;
    }
    std::size_t end = i;
    while (end < expression.size() && is_name_character(expression[end])) ++end;
    const std::string token = expression.substr(i, end - i);
    if (token[0] >= '0' && token[0] <= '9') {
      for (const char c : token) on_other(c);
    } else {
      on_name(token);
    }
    i = end;
  }
}

}  // namespace

Wording wording(std::string_view parameter) {
  for (const Entry& entry : entries)
    if (entry.parameter == parameter) return {tr(entry.name), std::string(entry.unit), entry.per_unit};
  if (constexpr std::string_view in_mm = " (mm)"; parameter.ends_with(in_mm))
    return {std::string(parameter.substr(0, parameter.size() - in_mm.size())), "mm", 1};
  if (parameter.ends_with("_mm2")) return {std::string(parameter), "mm²", 1};
  if (parameter.ends_with("_mm")) return {std::string(parameter), "mm", 1};
  if (parameter.ends_with("_rad")) return {std::string(parameter), "°", degrees_per_rad};
  return {std::string(parameter), "", 1};
}

std::string plain_expression(const std::string& expression) {
  std::string out;
  walk(
      expression, [&](const std::string& token) { out += wording(token).name; },
      [&](char c) {
        if (c == '*')
          out += " × ";
        else
          out += c;
      });
  std::string single;  // "2 * x" would leave two blanks
  for (const char c : out)
    if (c != ' ' || !single.ends_with(' ')) single += c;
  return single;
}

std::string unit_of_expression(const std::string& expression) {
  bool length = false;
  bool area = false;
  walk(
      expression,
      [&](const std::string& token) {
        length = length || token.ends_with("_mm");
        area = area || token.ends_with("_mm2");
      },
      [](char) {});
  return length ? "mm" : area ? "mm²" : "";
}

std::string policy_in_words(Policy policy) {
  switch (policy) {
    case Policy::shrink:
      return tr("the plastic's size factor takes what X and Y share, steps per mm only what differs between them");
    case Policy::steps:
      return tr("steps per mm take all of the scale error, the size factor stays");
    case Policy::machine:
      return tr("steps per mm take what was measured on the machine, the size factor takes the rest");
    case Policy::shrink_only:
      return tr("the plastic's size factor alone; what differs between X and Y stays");
  }
  return std::string(word(policy));
}

std::string place_in_words(const std::string& place) {
  struct Entry {
    std::string_view place;
    const char* words;
  };
  constexpr std::array<Entry, 4> places{{{"x100", noted("outside, 100 mm along X")},
                                         {"y100", noted("outside, 100 mm along Y")},
                                         {"slot_x20", noted("slot, 20 mm along X")},
                                         {"slot_y20", noted("slot, 20 mm along Y")}}};
  for (const Entry& entry : places)
    if (entry.place == place) return tr(entry.words);
  return place;
}

std::string beyond_in_words(const std::vector<BeyondReadings>& effects) {
  constexpr double example_mm = 100;
  constexpr int decimals = 3;  // of millimetres: these are small
  std::string out, cause, last;
  for (const BeyondReadings& e : effects) {
    const bool scale = e.parameter.starts_with("scale_");
    const std::string much = said_fixed(e.u, decimals);
    const std::string effect =
        scale ? said("{} mm on {} mm", said_fixed(e.u * example_mm, decimals), said_shortest(example_mm))
        : e.parameter == name::edge_growth ? said("{} mm an edge", much)
        : e.parameter == name::z0          ? said("{} mm on heights", much)
                                           : said("{} mm in {}", much, wording(e.parameter).name);
    if (e.cause != cause)
      out += (out.empty() ? "" : "; ") + e.cause + ", " + e.how_much + ": " + effect;
    else if (effect != last)  // the scales of all axes alike
      out += ", " + effect;
    cause = e.cause;
    last = effect;
  }
  return out;
}

ValueAndU value_and_u(double value, double u, int most) {
  if (!(u > 0) || !std::isfinite(u)) return {said_fixed(value, most), "", most};
  // 0.0996 rounds up to 0.10: ask again with the rounded u, so that it keeps two digits and not three.
  int decimals = decimals_for(u, most);
  const double step = std::pow(10.0, -decimals);
  decimals = decimals_for(std::max(std::round(u / step) * step, step), most);
  return {said_fixed(value, decimals), said_fixed(u, decimals), decimals};
}

std::string plus_minus(double value, double u, double df, int most) {
  constexpr double level = 0.95;
  const ValueAndU shown = value_and_u(value, u, most);
  if (shown.u.empty() || !(df > 0)) return shown.value;
  return shown.value + " ± " + said_fixed(coverage_factor(level, df) * u, shown.decimals);
}

std::string plus_minus_half(double value, double u, double half_width, int most) {
  const ValueAndU shown = value_and_u(value, u, most);
  if (shown.u.empty() || !std::isfinite(half_width)) return shown.value;
  return shown.value + " ± " + said_fixed(half_width, shown.decimals);
}

std::string with_sign(double value, int decimals) {
  const std::string text = said_fixed(value, decimals);
  const bool zero = text.find_first_of("123456789") == std::string::npos;
  return zero || text[0] == '-' ? text : '+' + text;
}

}  // namespace fitwright
