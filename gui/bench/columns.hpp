#pragma once
// The columns of the table of readings: what stands in a cell, for the eye and for editing.

#include <string>
#include <vector>

#include "reading/reading.hpp"

namespace fitwright {

enum class Column {
  feature,
  kind,
  axis,
  drawn,
  copy,
  turned,
  repeat,
  reading,
  deviation,
  remark,
  side_a,
  side_b,
  facets,
  edge_a,
  edge_b,
  step,
  part_c,
  note,
};

struct ColumnInfo {
  std::string title;    ///< with the unit, once
  bool number = false;  ///< right-aligned
  bool editable = false;
  std::string widest;  ///< a text as wide as the column should be
};

ColumnInfo info(Column column);

/// The columns worth showing; `all` also those that are rarely needed.
std::vector<Column> visible_columns(bool all);

/// Decimals shared by a column, so that the points stand under each other.
struct Decimals {
  int drawn = 2;
  int reading = 2;
};
Decimals decimals_of(const ReadingSet& readings);

/// Text of a cell for the eye. `remark` is not in a reading: it is empty here.
std::string cell_shown(const Reading& reading, Column column, Decimals decimals);
/// Text of a cell for editing: exact, and read back by set_cell to the same value.
std::string cell_editable(const Reading& reading, Column column);

}  // namespace fitwright
