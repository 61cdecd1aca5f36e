#include "report/layout.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace fitwright {
namespace {

void trim_end(std::string& line) {
  while (!line.empty() && line.back() == ' ') line.pop_back();
}

/// A number stays with its unit, and ± with what follows it: "(± 0.05 mm)" is not torn apart.
bool stay_together(std::string_view word, std::string_view next) {
  constexpr std::string_view plus_minus_sign = "±";
  if (word.ends_with(plus_minus_sign)) return true;
  const bool number = word.back() >= '0' && word.back() <= '9';
  return number && (next.starts_with("mm") || next.starts_with('%') || next.starts_with(plus_minus_sign));
}

/// The words of a text; those that must not be parted stand in one piece.
std::vector<std::string> unbreakable_pieces(std::string_view text) {
  constexpr std::string_view blanks = " \n";
  std::vector<std::string> pieces;
  std::string_view last;
  for (std::size_t start = text.find_first_not_of(blanks); start != std::string_view::npos;) {
    const std::size_t end = std::min(text.find_first_of(blanks, start), text.size());
    const std::string_view word = text.substr(start, end - start);
    if (!last.empty() && stay_together(last, word))
      pieces.back() += ' ' + std::string(word);
    else
      pieces.emplace_back(word);
    last = word;
    start = text.find_first_not_of(blanks, end);
  }
  return pieces;
}

}  // namespace

std::string paragraph(std::string_view text, std::string_view first, std::string_view rest, std::size_t width) {
  std::string out;
  std::string line(first);
  bool empty = true;  // no word on this line yet
  for (const std::string& piece : unbreakable_pieces(text)) {
    if (!empty && characters(line) + 1 + characters(piece) > width) {
      out += line + '\n';
      line = rest;
      empty = true;
    }
    if (!empty) line += ' ';
    line += piece;
    empty = false;
  }
  trim_end(line);
  return out + line + '\n';
}

std::string columns(const std::vector<std::vector<std::string>>& rows, const std::vector<Align>& align,
                    std::string_view indent) {
  std::vector<std::size_t> widths(align.size(), 0);
  for (const auto& row : rows)
    for (std::size_t i = 0; i < std::min(row.size(), widths.size()); ++i)
      widths[i] = std::max(widths[i], characters(row[i]));
  std::string out;
  for (const auto& row : rows) {
    std::string line(indent);
    for (std::size_t i = 0; i < std::min(row.size(), widths.size()); ++i) {
      if (i > 0) line += "  ";
      const std::string blanks(widths[i] - characters(row[i]), ' ');
      line += align[i] == Align::right ? blanks + row[i] : row[i] + blanks;
    }
    trim_end(line);
    out += line + '\n';
  }
  return out;
}

}  // namespace fitwright
