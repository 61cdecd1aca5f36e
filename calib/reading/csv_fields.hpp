#pragma once
// One row of a readings file as a reading, each field told apart when it is not what it should be.

#include <optional>
#include <string>

#include "reading/csv_columns.hpp"
#include "reading/reading.hpp"

namespace fitwright {

/// What could be read of a row. A field that was wrong has been told and is absent.
struct RowContent {
  std::optional<std::string> id;
  std::optional<Kind> kind;
  std::optional<Axis> axis;
  std::optional<double> nominal_mm, reading_mm;
  std::optional<int> copy, repeat, turned_deg, facets;
  std::optional<double> side_a_mm, side_b_mm, part_c;
  double step_mm = Reading{}.step_mm;
  std::string edge_a, edge_b, note;
};

/// What an empty reading is.
enum class Unread { told, allowed };

/// Reads the fields of `row`. `separator` decides whether a decimal comma can be.
RowContent read_fields(const CsvRow& row, const ColumnMap& columns, char separator, Unread unread, Defects& defects);

}  // namespace fitwright
