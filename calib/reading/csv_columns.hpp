#pragma once
// The columns of a readings file (docs/formats.md), and which of them a header row names.

#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "reading/csv_scanner.hpp"

namespace fitwright {

enum class Column {
  feature_id,
  kind,
  axis,
  nominal_mm,
  copy,
  repeat,
  reading_mm,
  turned_deg,
  unit,
  facets,
  side_a_mm,
  side_b_mm,
  edge_a,
  edge_b,
  step_mm,
  part_c,
  note,
};

inline constexpr std::array<std::string_view, 17> column_names{
    "feature_id", "kind",      "axis",      "nominal_mm", "copy",   "repeat",  "reading_mm", "turned_deg", "unit",
    "facets",     "side_a_mm", "side_b_mm", "edge_a",     "edge_b", "step_mm", "part_c",     "note"};

/// The first so many of column_names must be there.
inline constexpr std::size_t required_columns = 7;

constexpr std::string_view word(Column column) { return column_names[static_cast<std::size_t>(column)]; }

/// Where in a row each column stands.
class ColumnMap {
 public:
  /// Tells missing, unknown and repeated columns. Empty when the row names no column at all (told once).
  static std::optional<ColumnMap> from_header(const CsvRow& header, Defects& defects);

  /// Fields a row must have (unnamed columns at the end of the header, as spreadsheets leave them, not counted).
  [[nodiscard]] std::size_t width() const { return width_; }
  /// The field of a row, or null when the file has no such column. Precondition: the row has width() fields.
  [[nodiscard]] const CsvField* field(const CsvRow& row, Column column) const {
    const int at = position_[static_cast<std::size_t>(column)];
    return at < 0 ? nullptr : &row.fields[static_cast<std::size_t>(at)];
  }

 private:
  std::size_t width_ = 0;
  std::array<int, column_names.size()> position_{};
};

}  // namespace fitwright
