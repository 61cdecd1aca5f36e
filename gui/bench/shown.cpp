#include "bench/shown.hpp"

#include <array>
#include <utility>

#include "base/words.hpp"

namespace fitwright {
namespace {

constexpr std::string_view minus = "\u2212";

constexpr std::array<std::pair<Kind, const char*>, 16> kinds{{
    {Kind::outer, noted("outer")},
    {Kind::inner, noted("slot")},
    {Kind::foot, noted("foot")},
    {Kind::pitch, noted("pitch")},
    {Kind::peg, noted("peg")},
    {Kind::hole, noted("hole")},
    {Kind::hole_h, noted("lying hole")},
    {Kind::pin, noted("pin hole")},
    {Kind::wall, noted("wall")},
    {Kind::diag_plus, noted("diagonal +")},
    {Kind::diag_minus, noted("diagonal \u2212")},
    {Kind::flats_plus, noted("flats +")},
    {Kind::flats_minus, noted("flats \u2212")},
    {Kind::zero, noted("jaws closed")},
    {Kind::gauge, noted("steel outside")},
    {Kind::ring, noted("steel inside")},
}};

constexpr std::array<std::pair<Axis, std::string_view>, 5> axes{{
    {Axis::x, "X"},
    {Axis::y, "Y"},
    {Axis::z, "Z"},
    {Axis::xy, "XY"},
    {Axis::n, ""},
}};

constexpr std::string_view no_break_space = "\u00a0";
constexpr std::array<std::string_view, 6> units{"mm", "mm\u00b2", "%", "\u00b0", "mm/N", "g"};

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

/// Whether a unit stands at the start of `rest`, as a word of its own.
bool unit_ahead(std::string_view rest) {
  for (const std::string_view unit : units) {
    if (!rest.starts_with(unit)) continue;
    const std::string_view after = rest.substr(unit.size());
    if (after.empty() || !(is_letter(after[0]) || is_digit(after[0]))) return true;
  }
  return false;
}

std::string with_minus(std::string digits) {
  if (!digits.empty() && digits[0] == '-') digits.replace(0, 1, minus);
  return digits;
}

}  // namespace

std::string shown(double value, int decimals) { return with_minus(said_fixed(value, decimals)); }

std::string shown_signed(double value, int decimals) {
  std::string digits = said_fixed(value, decimals);
  const bool positive = digits.find_first_of("123456789") != std::string::npos && digits[0] != '-';
  return positive ? "+" + digits : with_minus(std::move(digits));
}

std::string shown_exact(double value) { return with_minus(said_shortest(value)); }

std::string_view spoken(Kind kind) {
  for (const auto& [k, text] : kinds)
    if (k == kind) return tr(text);
  return "?";
}

std::optional<Kind> kind_from_speech(std::string_view text) {
  const std::string wanted = folded(text);
  for (const auto& [k, name] : kinds)
    if (name == wanted || folded(tr(name)) == wanted) return k;
  return kind_from(wanted);
}

std::string_view spoken(Axis axis) {
  for (const auto& [a, text] : axes)
    if (a == axis) return text;
  return "?";
}

std::optional<Axis> axis_from_speech(std::string_view text) {
  const std::string wanted = folded(text);
  return wanted.empty() ? Axis::n : axis_from(wanted);
}

std::string label_words(const std::string& label) {
  if (const std::string whole = tr(label.c_str()); whole != label) return whole;
  // "height, 25 layers" stands in the catalogue as "height, {} layers"
  std::string form, number;
  for (const char c : label) {
    const bool part_of_number = is_digit(c) || (c == '.' && !number.empty());
    if (part_of_number && number.empty()) form += "{}";
    if (part_of_number)
      number += c;
    else
      form += c;
  }
  const std::string known = tr(form.c_str());
  if (known == form || form.find("{}") == std::string::npos) return label;
  if (const auto point = number.find('.'); point != std::string::npos) number[point] = decimal_sign();
  return fmt::format(fmt::runtime(known), number);
}

std::string capitalised(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string ordinal(int number) {
  const int last = number % 10;
  const bool teen = number / 10 % 10 == 1;
  if (!teen && last == 1) return said("{}st", number);
  if (!teen && last == 2) return said("{}nd", number);
  if (!teen && last == 3) return said("{}rd", number);
  return said("{}th", number);
}

std::string counted(std::size_t number, std::string_view one, std::string_view many) {
  return std::to_string(number) + " " + std::string(number == 1 ? one : many);
}

std::string typeset(std::string_view text) {
  constexpr std::string_view plus_minus_sign = "\u00b1";
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char before = i > 0 ? text[i - 1] : ' ';
    const std::string_view rest = text.substr(i + 1);
    const bool word_before = is_digit(before) || is_letter(before) || static_cast<unsigned char>(before) >= 0x80;
    if (text[i] == '-' && !word_before && !rest.empty() && is_digit(rest[0])) {
      out += minus;
    } else if (text[i] == ' ' && (rest.starts_with(plus_minus_sign) || out.ends_with(plus_minus_sign) ||
                                  ((is_digit(before) || before == ')') && unit_ahead(rest)))) {
      out += no_break_space;
    } else {
      out += text[i];
    }
  }
  return out;
}

std::string folded(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const auto first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  std::string out(text.substr(first, text.find_last_not_of(blanks) - first + 1));
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

}  // namespace fitwright
