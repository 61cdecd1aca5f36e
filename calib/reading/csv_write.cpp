#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "base/number.hpp"
#include "base/text.hpp"
#include "reading/csv.hpp"
#include "reading/csv_columns.hpp"

namespace fitwright {
namespace {

std::string field(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos && text == without_blanks(text)) return text;
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

std::string field(const std::optional<double>& value) { return value ? shortest(*value) : std::string(); }

std::string content(const Reading& r, Column column) {
  switch (column) {
    case Column::feature_id:
      return field(r.feature.id);
    case Column::kind:
      return std::string(word(r.feature.kind));
    case Column::axis:
      return std::string(word(r.feature.axis));
    case Column::nominal_mm:
      return shortest(r.feature.nominal_mm);
    case Column::copy:
      return std::to_string(r.copy);
    case Column::repeat:
      return std::to_string(r.repeat);
    case Column::reading_mm:
      return std::isfinite(r.reading_mm) ? shortest(r.reading_mm) : std::string();
    case Column::turned_deg:
      return std::to_string(r.turned_deg);
    case Column::unit:
      return "mm";
    case Column::facets:
      return std::to_string(r.feature.facets);
    case Column::side_a_mm:
      return field(r.feature.side_a_mm);
    case Column::side_b_mm:
      return field(r.feature.side_b_mm);
    case Column::edge_a:
      return field(r.feature.edge_a);
    case Column::edge_b:
      return field(r.feature.edge_b);
    case Column::step_mm:
      return shortest(r.step_mm);
    case Column::part_c:
      return field(r.part_c);
    case Column::note:
      return field(r.note);
  }
  return {};
}

/// Whether a reading says something in `column` that its absence would not say.
bool says_more(const Reading& r, Column column) {
  switch (column) {
    case Column::turned_deg:
      return r.turned_deg != 0;
    case Column::unit:
      return false;  // readings are held in mm
    case Column::facets:
      return r.feature.facets != 0;
    case Column::side_a_mm:
    case Column::side_b_mm:
      return r.feature.side_a_mm || r.feature.side_b_mm;
    case Column::edge_a:
    case Column::edge_b:
      return !r.feature.edge_a.empty() || !r.feature.edge_b.empty();
    case Column::step_mm:
      return r.step_mm != Reading{}.step_mm;
    case Column::part_c:
      return r.part_c.has_value();
    case Column::note:
      return !r.note.empty();
    default:
      return true;
  }
}

}  // namespace

std::string to_csv(const ReadingSet& set) {
  std::vector<Column> columns;
  for (std::size_t i = 0; i < column_names.size(); ++i) {
    const auto column = static_cast<Column>(i);
    const bool used =
        std::any_of(set.rows.begin(), set.rows.end(), [&](const Reading& r) { return says_more(r, column); });
    if (i < required_columns || used) columns.push_back(column);
  }
  std::string out;
  for (const Column column : columns) (out += word(column)) += ',';
  out.back() = '\n';
  for (const Reading& r : set.rows) {
    for (const Column column : columns) (out += content(r, column)) += ',';
    out.back() = '\n';
  }
  return out;
}

}  // namespace fitwright
