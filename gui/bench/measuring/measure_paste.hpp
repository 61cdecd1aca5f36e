#pragma once
// Readings from a spreadsheet's clipboard or from a readings file: first what would happen, cell by cell, then the
// step.

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "bench/measuring/measure_steps.hpp"

namespace fitwright {

/// One cell of what was pasted, and where it would go.
struct PastedCell {
  int row = 1, column = 1;  ///< in the block, from 1
  std::string text;         ///< as pasted
  std::optional<ReadingKey> key;
  std::string place;         ///< "X40, 2nd reading"
  std::optional<double> mm;  ///< empty when it cannot be taken
  std::string wrong;         ///< why not, and what to do
  std::string remark;        ///< what to know before taking it: a likely slip, a reading it replaces
};

struct PastePreview {
  std::vector<PastedCell> cells;   ///< every cell that is, or should be, a reading
  std::vector<std::string> notes;  ///< what was left out on purpose: a heading, a column of drawn sizes
  std::size_t good = 0, wrong = 0;
  std::string summary;  ///< "34 readings, 2 cells cannot be taken"
  Measuring next;       ///< with all that can be taken
};

/// A column of numbers fills the due places in order from the present one; an empty cell leaves its place out. A block
/// with feature names in one column goes by name: each row's numbers are the next readings of that feature, on the copy
/// in hand or on that of a column headed "copy". Cells are separated by tab, else by ';', else by ',' after a name;
/// both decimal signs are understood. A column that repeats the drawn sizes is left out and told. Errors:
/// Code::bad_input when there is nothing to paste, or several columns without a name to go by.
Result<PastePreview> preview_paste(const Measuring& m, const std::string& text);

/// Takes what can be taken; `leave_out_wrong` says that the rest is known to be left out. Errors: Code::bad_input with
/// every cell that cannot be taken, otherwise; Code::usage when nothing can.
Result<MeasureStep> take_paste(const PastePreview& preview, bool leave_out_wrong);

/// Whether a text is a readings file (its first row names feature_id): then preview_import() is for it.
bool is_readings_text(const std::string& text);

/// One row of a readings file against this evening.
struct ImportedRow {
  enum class What {
    added,       ///< a place of the plan, not read so far
    same,        ///< the same reading is here already
    differs,     ///< here is another value
    beside,      ///< not on this plan: kept beside it
    contradicts  ///< cannot stand beside the readings of this plan
  };
  What what = What::added;
  int line = 0;  ///< in the file
  Reading reading;
  std::string place;  ///< "X40, 2nd reading: 40.12"
  std::string told;   ///< "here it is 40.10", "lay at 0 degrees here, ..."; or the doubt about it
};

struct ImportPreview {
  std::vector<std::string> defects;  ///< "FILE:LINE:COLUMN: ..."; with any of these nothing can be taken
  std::vector<ImportedRow> rows;
  std::size_t added = 0, same = 0, differing = 0, beside = 0, contradicting = 0;
  std::string summary;  ///< "36 readings to add, 2 differ from those here"
  bool inches = false;  ///< how lengths are shown
};

/// What importing a readings file (docs/formats.md) would do. Pure.
ImportPreview preview_import(const Measuring& m, const std::string& csv, const std::string& source);

/// Adds the new rows; those that differ replace the ones here only when `replace` says so. Errors: Code::bad_input with
/// the defects; Code::usage when there is nothing to take.
Result<MeasureStep> take_import(const Measuring& m, const ImportPreview& preview, bool replace);

}  // namespace fitwright
