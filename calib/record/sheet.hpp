#pragma once
// What both spreadsheets need: safe cells, and what a setup is called.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "record/spreadsheet.hpp"

namespace fitwright::record {

/// Text for a cell: quoted by RFC 4180 where it must be; where a spreadsheet would take it for a formula (it begins
/// with = + - @, a tab or a line end) an apostrophe is put before it.
std::string sheet_text(const std::string& text);
std::string sheet_number(const std::optional<double>& number);

/// A setup by the names of what it is made of, as they hold now, ended or not.
struct SetupNames {
  Id id;
  std::string setup, printer, material, spool;
};

/// The setups asked for, in the order in which they were entered. Errors: Code::bad_input for one that is not there.
Result<std::vector<SetupNames>> setups_for(Record& record, const Id& setup);

/// Columns, all cells ready, joined to rows.
class Sheet {
 public:
  explicit Sheet(const std::vector<std::string>& columns);
  void add(const std::vector<std::string>& cells);
  Spreadsheet sheet;

 private:
  std::size_t width_;
};

}  // namespace fitwright::record
