#include "reading/csv_scanner.hpp"

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "base/words.hpp"

namespace fitwright {
namespace {

bool is_continuation_byte(char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; }

/// The separator that occurs most in the first line with anything on it, quoted parts left out; ',' when none does.
char separator_of(std::string_view text) {
  constexpr std::array<char, 3> candidates{',', ';', '\t'};
  std::array<std::size_t, 3> counts{};
  bool quoted = false, begun = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (c == '\n' || c == '\r') {
      if (begun) break;
      continue;
    }
    begun = begun || (c != ' ' && c != '\t');
    for (std::size_t i = 0; i < candidates.size(); ++i)
      if (c == candidates[i]) ++counts[i];
  }
  return candidates[static_cast<std::size_t>(std::max_element(counts.begin(), counts.end()) - counts.begin())];
}

bool is_blank(const CsvRow& row) {
  return std::all_of(row.fields.begin(), row.fields.end(),
                     [](const CsvField& f) { return f.text.empty() && !f.quoted; });
}

}  // namespace

CsvScanner::CsvScanner(std::string_view text, Defects& defects) : text_(text), defects_(defects) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (text_.starts_with(byte_order_mark)) text_.remove_prefix(byte_order_mark.size());
  separator_ = separator_of(text_);
}

void CsvScanner::step() {
  ++at_;
  if (at_end() || !is_continuation_byte(text_[at_])) ++column_;
}

void CsvScanner::skip_line_end() {
  if (at_end()) return;
  at_ += text_.substr(at_).starts_with("\r\n") ? 2 : 1;
  ++line_;
  column_ = 1;
}

bool CsvScanner::next(CsvRow& row) {
  while (!at_end())
    if (read_row(row) && !is_blank(row)) return true;
  return false;
}

/// False when a quote of the row is broken; the text up to the end of the line is then passed over.
bool CsvScanner::read_row(CsvRow& row) {
  row.line = line_;
  std::size_t n = 0;
  bool sound = true;
  for (;;) {
    if (row.fields.size() == n) row.fields.emplace_back();  // the fields of the row before are used again
    sound = read_field(row.fields[n++]) && sound;
    if (at_line_end()) break;
    step();  // over the separator
  }
  row.fields.resize(n);
  skip_line_end();
  return sound;
}

bool CsvScanner::read_field(CsvField& field) {
  while (!at_end() && (text_[at_] == ' ' || (text_[at_] == '\t' && separator_ != '\t'))) step();
  field.line = line_;
  field.column = column_;
  field.quoted = !at_end() && text_[at_] == '"';
  if (field.quoted) return read_quoted(field);
  const std::size_t begin = at_;
  while (!at_line_end() && text_[at_] != separator_) step();
  field.text = without_blanks(text_.substr(begin, at_ - begin));
  return true;
}

bool CsvScanner::read_quoted(CsvField& field) {
  const std::size_t open_at = at_;
  field.text.clear();
  step();
  for (;;) {
    if (at_end()) {
      defects_.add(field.line, field.column, tr("this quote is never closed"), tr("close it, or take it out"));
      // Go on with the next line as if the quote were not there, so that the rest of the file is looked at as well.
      at_ = std::min(text_.find_first_of("\r\n", open_at), text_.size());
      line_ = field.line;
      return false;
    }
    const char c = text_[at_];
    if (c == '"') {
      step();
      if (at_end() || text_[at_] != '"') break;
    }
    field.text += c;
    if (c == '\n' || (c == '\r' && !text_.substr(at_).starts_with("\r\n"))) {
      ++at_;
      ++line_;
      column_ = 1;
    } else {
      step();
    }
  }
  while (!at_line_end() && text_[at_] == ' ') step();
  if (at_line_end() || text_[at_] == separator_) return true;
  defects_.add(line_, column_, tr("text follows the closing quote"),
               tr("double a quote that belongs to the text (\"\")"));
  while (!at_line_end() && text_[at_] != separator_) step();
  return false;
}

}  // namespace fitwright
