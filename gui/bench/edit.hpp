#pragma once
// Edits of the readings: each takes a content and gives the next one, or says why not. Nothing is changed in place.

#include <cstddef>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "bench/columns.hpp"
#include "bench/content.hpp"

namespace fitwright {

struct Edit {
  Content next;
  std::string label;  ///< names the step for undo: "reading of X40"
  std::string said;   ///< for the status line; empty when the cell itself says it all
};

/// Puts `text` as typed into a cell. A drawn size, kind, axis, side, facets or face belongs to the feature: all its
/// rows follow. `turned` belongs to the copy: all its rows follow. A feature name that is already there brings its
/// feature with it. An empty reading makes the place unread. Lengths take "1.575 in" and a decimal comma.
/// Errors: Code::bad_input saying what is expected; Code::usage for a column that cannot be edited.
Result<Edit> set_cell(const Content& content, std::size_t row, Column column, const std::string& text);

/// Inserts a place to read again before `row` (or at the end): the feature and copy of the row above, next repeat.
Edit insert_row(const Content& content, std::size_t row);

/// Takes rows out. Indices out of range are a defect of the caller and throw std::out_of_range.
Edit delete_rows(const Content& content, std::vector<std::size_t> rows);

/// Puts a block of cells (lines; tabs between cells, as spreadsheets copy them) down from `row`, right from the
/// column `columns[first]`. Text that starts with a header row of the readings' file is added as new rows instead.
/// All or nothing: every cell that cannot be taken is named. Errors: Code::bad_input.
Result<Edit> paste_block(const Content& content, std::size_t row, const std::vector<Column>& columns, std::size_t first,
                         const std::string& text);

/// The same readings under other wishes, or another state of the printer.
Edit with_wishes(const Content& content, const Wishes& wishes, std::string label);
Edit with_state(const Content& content, const State& state);

}  // namespace fitwright
