#pragma once
// Readings and corrections as CSV for a spreadsheet (docs/formats.md).

#include <cstddef>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "record/record.hpp"

namespace fitwright::record {

struct SpreadsheetOptions {
  Id setup;                 ///< empty: all setups, also those that ended
  bool superseded = false;  ///< readings: also the rows that were amended or ended since
};

struct Spreadsheet {
  std::string csv;  ///< the first row names the columns
  std::size_t rows = 0;
  std::vector<std::string> notes;  ///< what could not be told, in sentences
};

/// A row a reading, steel included: the columns of a readings file, then where the reading belongs. Errors: Code::io;
/// Code::bad_input for a setup that is not there.
Result<Spreadsheet> readings_csv(Record& record, const SpreadsheetOptions& options = {});

/// A row a knob of a correction, with old and new value and the dates of its life. Errors as above.
Result<Spreadsheet> corrections_csv(Record& record, const SpreadsheetOptions& options = {});

}  // namespace fitwright::record
