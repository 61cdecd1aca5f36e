#pragma once
// Readings to and from CSV (docs/formats.md).

#include <string>
#include <vector>

#include "base/result.hpp"
#include "reading/reading.hpp"

namespace fitwright {

/// Reads readings from CSV text: ',' ';' or tab separated (told from the first row), decimal comma accepted in the
/// latter two, BOM, CRLF and quoted fields accepted, columns in any order, optional ones absent; inches become mm.
/// Errors: all defects of the text at once as Code::bad_input with line and column (1-based, column in characters of
/// the line), at most Defects::most of them and then a last one that says how many more there are.
Result<ReadingSet> parse_readings(const std::string& csv, const std::string& source);

/// A file that is being filled in: what has been read, and the rows that wait for it.
struct PartlyRead {
  ReadingSet read;
  std::vector<Reading> unread;  ///< reading_mm is not a number (NaN)
};

/// The same for a file some of whose rows have no reading yet (an empty reading_mm). Everything else in those rows is
/// checked like in the others.
Result<PartlyRead> parse_partly_read(const std::string& csv, const std::string& source);

/// The readings as CSV text: the required columns, and each optional one that any row uses. A reading that is not a
/// number (NaN) is left empty. Reads back to the same set.
std::string to_csv(const ReadingSet& set);

}  // namespace fitwright
