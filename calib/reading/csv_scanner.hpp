#pragma once
// Delimited text row by row, every field with the place where it stood (RFC 4180, and what spreadsheets make of it).

#include <string>
#include <string_view>
#include <vector>

#include "reading/defects.hpp"

namespace fitwright {

struct CsvField {
  std::string text;  ///< unquoted; blanks at the ends are kept only in quoted fields
  int line = 0, column = 0;
  bool quoted = false;
};

/// One row: `line` is the physical line it begins on, as an editor counts.
struct CsvRow {
  int line = 0;
  std::vector<CsvField> fields;
};

/// Gives the rows of a text that are not blank. Lines end with LF, CRLF or CR; quoted fields may hold separators,
/// doubled quotes and line ends. A byte order mark is skipped.
class CsvScanner {
 public:
  /// Neither `text` nor `defects` are copied.
  CsvScanner(std::string_view text, Defects& defects);

  /// ',' ';' or tab: the one that occurs most in the first row that is not blank.
  [[nodiscard]] char separator() const { return separator_; }

  /// Fills `row` with the next row that is not blank and has no broken quotes (those are told, and the row is left
  /// out). False at the end of the text.
  bool next(CsvRow& row);

 private:
  std::string_view text_;
  Defects& defects_;
  std::size_t at_ = 0;
  int line_ = 1, column_ = 1;
  char separator_ = ',';

  [[nodiscard]] bool at_end() const { return at_ >= text_.size(); }
  [[nodiscard]] bool at_line_end() const { return at_end() || text_[at_] == '\n' || text_[at_] == '\r'; }
  void step();
  void skip_line_end();
  bool read_row(CsvRow& row);
  bool read_field(CsvField& field);
  bool read_quoted(CsvField& field);
};

}  // namespace fitwright
