#include "base/text.hpp"

#include <algorithm>
#include <vector>

#include "base/words.hpp"

namespace fitwright {
namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// Length in bytes of the well-formed UTF-8 sequence that `text` begins with, 0 if it begins with none.
std::size_t sequence_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) return 1;
  const std::size_t length = lead >= 0xC2 && lead <= 0xDF   ? 2
                             : (lead & 0xF0) == 0xE0        ? 3
                             : lead >= 0xF0 && lead <= 0xF4 ? 4
                                                            : 0;
  if (length == 0 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte(i) & 0xC0) != 0x80) return 0;
  // The second byte keeps out overlong forms, surrogates and what lies above U+10FFFF.
  if (lead == 0xE0 && byte(1) < 0xA0) return 0;
  if (lead == 0xED && byte(1) > 0x9F) return 0;
  if (lead == 0xF0 && byte(1) < 0x90) return 0;
  if (lead == 0xF4 && byte(1) > 0x8F) return 0;
  return length;
}

/// Optimal string alignment distance, case ignored.
std::size_t distance(std::string_view a, std::string_view b) {
  const std::size_t width = b.size() + 1;
  std::vector<std::size_t> table((a.size() + 1) * width);
  const auto at = [&](std::size_t i, std::size_t j) -> std::size_t& { return table[i * width + j]; };
  for (std::size_t i = 0; i <= a.size(); ++i) at(i, 0) = i;
  for (std::size_t j = 0; j <= b.size(); ++j) at(0, j) = j;
  for (std::size_t i = 1; i <= a.size(); ++i)
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t cost = lower(a[i - 1]) == lower(b[j - 1]) ? 0 : 1;
      at(i, j) = std::min({at(i - 1, j) + 1, at(i, j - 1) + 1, at(i - 1, j - 1) + cost});
      if (i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) && lower(a[i - 2]) == lower(b[j - 1]))
        at(i, j) = std::min(at(i, j), at(i - 2, j - 2) + 1);
    }
  return at(a.size(), b.size());
}

}  // namespace

std::string quote(std::string_view text, std::size_t most) {
  std::string out = "\"";
  for (std::size_t count = 0; !text.empty(); ++count) {
    if (count == most) {
      out += "...";
      break;
    }
    const std::size_t length = sequence_length(text);
    const bool control = length == 1 && (static_cast<unsigned char>(text[0]) < 0x20 || text[0] == 0x7F);
    out += length == 0 || control ? std::string_view("?") : text.substr(0, length);
    text.remove_prefix(std::max<std::size_t>(length, 1));
  }
  return out + '"';
}

std::string_view nearest(std::string_view word, std::span<const std::string_view> candidates) {
  constexpr std::size_t longest = 64;  // nobody meant a column name by a longer text
  std::string_view best;
  if (word.empty() || word.size() > longest) return best;
  std::size_t least = 0;
  for (const std::string_view candidate : candidates) {
    const std::size_t d = distance(word, candidate);
    const std::size_t allowed = std::max<std::size_t>(1, std::min(word.size(), candidate.size()) / 3);
    const bool near_enough = d <= allowed && (d == 0 || candidate.size() > 1);
    if (near_enough && (best.empty() || d < least)) {
      best = candidate;
      least = d;
    }
  }
  return best;
}

std::string alternatives(std::span<const std::string_view> words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? tr(" or ") : ", ";
    out += words[i];
  }
  return out;
}

std::size_t invalid_utf8_at(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = sequence_length(text.substr(i));
    if (length == 0) return i;
    i += length;
  }
  return std::string_view::npos;
}

std::size_t characters(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < text.size(); ++count) i += std::max<std::size_t>(sequence_length(text.substr(i)), 1);
  return count;
}

std::string_view without_blanks(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

}  // namespace fitwright
