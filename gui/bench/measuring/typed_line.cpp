#include "bench/measuring/typed_line.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "base/number.hpp"
#include "base/text.hpp"
#include "base/words.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

constexpr double mm_per_inch = 25.4;  // exact by definition (international inch, 1959)

/// Spellings that keyboards, spreadsheets and calipers have for a sign, a blank or a unit.
constexpr std::array<std::pair<std::string_view, std::string_view>, 8> spellings{{
    {"\u2212", "-"},
    {"\u00a0", " "},
    {"\u202f", " "},
    {"\u2033", "\""},
    {"\u201d", "\""},
    {"inches", "in"},
    {"inch", "in"},
    {"in.", "in"},
}};

std::string plainly(std::string_view text) {
  std::string out(text);
  std::erase_if(out, [](char c) { return c == '\0'; });
  out = folded(out);
  for (const auto& [spelling, meaning] : spellings)
    for (std::size_t at = out.find(spelling); at != std::string::npos; at = out.find(spelling, at + meaning.size()))
      out.replace(at, spelling.size(), meaning);
  return folded(out);
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string_view without_unit(std::string_view text) {
  for (const std::string_view unit : {"mm", "in", "\""})
    if (text.ends_with(unit)) {
      text.remove_suffix(unit.size());
      break;
    }
  return without_blanks(text);
}

Problem refused(std::string_view text, const std::string& why, const std::string& remedy) {
  return {Code::bad_input, {}, quote(folded(text)) + " " + why, remedy};
}

}  // namespace

Result<double> length_from_line(std::string_view text, bool inches) {
  const std::string line = plainly(text);
  const std::string_view digits = without_unit(line);
  const std::string as_shown =
      said("type what the caliper shows, such as {} or {} in", said_shortest(40.12), said_shortest(1.5795));
  if (line.empty()) return Problem{Code::bad_input, {}, tr("the line is empty"), as_shown};
  if (std::none_of(digits.begin(), digits.end(), is_digit)) return refused(text, tr("is not a reading"), as_shown);
  if (digits.find('/') != std::string_view::npos)
    return refused(text, tr("is a fraction"),
                   said("set the caliper to decimals, and type such as {} in", said_shortest(1.5795)));
  if (digits.find_first_not_of("0123456789.,+- \t") != std::string_view::npos)
    return refused(text, tr("is not a reading"), as_shown);
  // A sign may stand apart from its digits.
  std::string number(digits);
  if (number.size() > 1 && (number[0] == '+' || number[0] == '-'))
    number = number.substr(0, 1) + std::string(without_blanks(std::string_view(number).substr(1)));
  if (number.find_first_of(" \t") != std::string::npos)
    return refused(text, tr("holds more than one number"), tr("one reading a line"));
  if (number.find('.') != std::string::npos && number.find(',') != std::string::npos)
    return refused(text, tr("has a point and a comma"), tr("only one decimal sign, and no sign between thousands"));
  const bool has_unit = digits.size() != line.size();
  const bool in_inches = has_unit ? !line.ends_with("mm") : inches;
  const auto value = parse_number(folded(number), number.find(',') != std::string::npos);
  if (!value) return refused(text, tr("is not a reading"), as_shown);
  return in_inches ? *value * mm_per_inch : *value;
}

}  // namespace fitwright
