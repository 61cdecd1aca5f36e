#include "report/layout.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace fitwright {
namespace {

void trim_end(std::string& line) {
  while (!line.empty() && line.back() == ' ') line.pop_back();
}

}  // namespace

std::string paragraph(std::string_view text, std::string_view first, std::string_view rest, std::size_t width) {
  std::string out;
  std::string line(first);
  bool empty = true;  // no word on this line yet
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t start = text.find_first_not_of(" \n", at);
    if (start == std::string_view::npos) break;
    const std::size_t end = std::min(text.find_first_of(" \n", start), text.size());
    const std::string_view word = text.substr(start, end - start);
    if (!empty && characters(line) + 1 + characters(word) > width) {
      out += line + '\n';
      line = rest;
      empty = true;
    }
    if (!empty) line += ' ';
    line += word;
    empty = false;
    at = end;
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
