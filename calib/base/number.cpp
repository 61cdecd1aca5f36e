#include "base/number.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <system_error>

namespace fitwright {
namespace {

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const auto first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

/// from_chars takes no '+'; strip one, unless another sign follows it.
std::string_view without_plus(std::string_view text) {
  if (text.size() > 1 && text[0] == '+' && text[1] != '-' && text[1] != '+') text.remove_prefix(1);
  return text;
}

}  // namespace

std::optional<double> parse_number(std::string_view text, bool decimal_comma) {
  std::string copy(without_plus(trimmed(text)));
  if (decimal_comma) {
    if (copy.find('.') != std::string::npos) return std::nullopt;
    std::replace(copy.begin(), copy.end(), ',', '.');
  }
  double value = 0;
  const auto [end, error] = std::from_chars(copy.data(), copy.data() + copy.size(), value);
  if (error != std::errc() || end != copy.data() + copy.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::optional<int> parse_whole(std::string_view text) {
  const std::string_view digits = without_plus(trimmed(text));
  int value = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (error != std::errc() || end != digits.data() + digits.size()) return std::nullopt;
  return value;
}

std::string shortest(double value) {
  char buffer[64];
  const auto [end, error] = std::to_chars(buffer, buffer + sizeof buffer, value);
  return error == std::errc() ? std::string(buffer, end) : std::string();
}

std::string fixed(double value, int decimals) {
  char buffer[400];
  const auto [end, error] = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, decimals);
  std::string text = error == std::errc() ? std::string(buffer, end) : std::string();
  if (!text.empty() && text[0] == '-' && text.find_first_of("123456789") == std::string::npos) text.erase(0, 1);
  return text;
}

int decimals_for(double u, int most) {
  if (!(u > 0) || !std::isfinite(u)) return most;
  return std::clamp(1 - static_cast<int>(std::floor(std::log10(u))), 0, most);
}

}  // namespace fitwright
