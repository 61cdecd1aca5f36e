#include "bench/quantity.hpp"

#include <algorithm>
#include <initializer_list>

#include "base/number.hpp"
#include "base/text.hpp"
#include "base/words.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

constexpr double mm_per_inch = 25.4;  // exact by definition (international inch, 1959)

std::string_view written(Unit unit) {
  switch (unit) {
    case Unit::mm:
      return "mm";
    case Unit::steps_per_mm:
      return tr("steps/mm");
    case Unit::celsius:
      return "\u00b0C";
    case Unit::g_per_cm3:
      return "g/cm\u00b3";
    case Unit::per_kg:
      return tr("per kg");
    case Unit::none:
      break;
  }
  return {};
}

bool means(std::string_view word, Unit unit) {
  const auto one_of = [&](std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
  };
  switch (unit) {
    case Unit::mm:
      return one_of({"mm", "millimetre", "millimetres"});
    case Unit::steps_per_mm:
      return one_of({"steps/mm", "steps per mm", "step/mm", "/mm", "per mm"});
    case Unit::celsius:
      return one_of({"\u00b0c", "c", "\u00b0 c", "\u00b0", "degrees"});
    case Unit::g_per_cm3:
      return one_of({"g/cm\u00b3", "g/cm3", "g/cm^3", "g/ml"});
    case Unit::per_kg:
      return one_of({"per kg", "/kg", "a kg"});
    case Unit::none:
      break;
  }
  return false;
}

}  // namespace

std::string in_field(double value, Unit unit) {
  const std::string number = said_shortest(value);
  return unit == Unit::none ? number : number + " " + std::string(written(unit));
}

Result<double> from_field(std::string_view typed, Unit unit, bool inches) {
  const std::string text = folded(typed);
  const std::string remedy =
      unit == Unit::none ? std::string(tr("type a number")) : said("type a number in {}", written(unit));
  const std::size_t end = std::min(text.find_first_not_of("0123456789.,+-"), text.size());
  const std::string digits = text.substr(0, end);
  const std::string word(without_blanks(std::string_view(text).substr(end)));
  const bool comma = digits.find('.') == std::string::npos;
  const auto number = parse_number(digits, comma);
  if (!number) return Problem{Code::bad_input, {}, said("{} is not a number", quote(typed)), remedy};
  const bool in_inches = unit == Unit::mm && (word.empty() ? inches : word == "in" || word == "inch" || word == "\"");
  if (in_inches) return *number * mm_per_inch;
  if (!word.empty() && !means(word, unit) && word != folded(written(unit)))
    return Problem{Code::bad_input, {}, said("{} is not the unit here", quote(word)), remedy};
  return *number;
}

}  // namespace fitwright
