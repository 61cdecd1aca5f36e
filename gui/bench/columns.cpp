#include "bench/columns.hpp"

#include <algorithm>

#include "base/number.hpp"
#include "bench/content.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

constexpr int most_reading_decimals = 4;  // a caliper shows two, a micrometer three, converted inches four
constexpr int most_drawn_decimals = 2;    // the drawing's diagonals are irrational; the exact size is in the editor

int decimals_used(double value, int most) {
  const std::string text = shortest(value);
  const auto point = text.find('.');
  if (point == std::string::npos || text.find('e') != std::string::npos) return 0;
  return std::min(most, static_cast<int>(text.size() - point - 1));
}

/// "outer X"; kinds that have one axis only go without.
std::string kind_and_axis(const Feature& feature) {
  const std::string kind(spoken(feature.kind));
  return axes_of(feature.kind).size() > 1 ? kind + " " + std::string(spoken(feature.axis)) : kind;
}

/// "2 at 90\u00b0": which copy, and how it lay on the bed where that was not straight.
std::string copy_and_turn(const Reading& r) {
  if (is_steel(r.feature.kind)) return {};
  const std::string copy = std::to_string(r.copy);
  return r.turned_deg == 0 ? copy : copy + " at " + std::to_string(r.turned_deg) + "\u00b0";
}

std::string optional_text(const std::optional<double>& value) { return value ? shortest(*value) : std::string(); }

}  // namespace

ColumnInfo info(Column column) {
  switch (column) {
    case Column::feature:
      return {"Feature", false, true, "SX100a"};
    case Column::kind:
      return {"What", false, true, "diagonal +"};
    case Column::axis:
      return {"Axis", false, true, "Axis"};
    case Column::drawn:
      return {"Drawn mm", true, true, "Drawn mm"};
    case Column::copy:
      return {"Copy", false, true, "2 at 90\u00b0"};
    case Column::turned:
      return {"Turned", true, true, "Turned"};
    case Column::repeat:
      return {"Repeat", true, true, "Repeat"};
    case Column::reading:
      return {"Read mm", true, true, "1000.00"};
    case Column::deviation:
      return {"Off", true, false, "+100.00"};
    case Column::remark:
      return {"Remark", false, false, "set aside: 99.74?"};
    case Column::side_a:
      return {"Side X mm", true, true, "Side X mm"};
    case Column::side_b:
      return {"Side Y mm", true, true, "Side Y mm"};
    case Column::facets:
      return {"Facets", true, true, "Facets"};
    case Column::edge_a:
      return {"1st face", false, true, "x.block10.a"};
    case Column::edge_b:
      return {"2nd face", false, true, "x.block10.a"};
    case Column::step:
      return {"Step mm", true, true, "Step mm"};
    case Column::part_c:
      return {"Part \u00b0C", true, true, "Part \u00b0C"};
    case Column::note:
      return {"Note", false, true, "a note of a few words"};
  }
  return {};
}

std::vector<Column> visible_columns(bool all) {
  std::vector<Column> columns{Column::feature, Column::kind,    Column::drawn,     Column::copy,
                              Column::repeat,  Column::reading, Column::deviation, Column::remark};
  if (all)
    columns.insert(columns.end(), {Column::axis, Column::turned, Column::side_a, Column::side_b, Column::facets,
                                   Column::edge_a, Column::edge_b, Column::step, Column::part_c, Column::note});
  return columns;
}

Decimals decimals_of(const ReadingSet& readings) {
  Decimals most{0, 2};
  for (const Reading& r : readings.rows) {
    most.drawn = std::max(most.drawn, decimals_used(r.feature.nominal_mm, most_drawn_decimals));
    if (has_reading(r)) most.reading = std::max(most.reading, decimals_used(r.reading_mm, most_reading_decimals));
  }
  return most;
}

std::string cell_shown(const Reading& r, Column column, Decimals decimals) {
  switch (column) {
    case Column::kind:
      return kind_and_axis(r.feature);
    case Column::copy:
      return copy_and_turn(r);
    case Column::drawn:
      return shown(r.feature.nominal_mm, decimals.drawn);
    case Column::turned:
      return r.turned_deg == 0 ? std::string() : std::to_string(r.turned_deg) + "\u00b0";
    case Column::reading:
      return has_reading(r) ? shown(r.reading_mm, decimals.reading) : "\u00b7";
    case Column::deviation:
      return has_reading(r) ? shown_signed(r.reading_mm - r.feature.nominal_mm, decimals.reading) : std::string();
    case Column::facets:
      return r.feature.facets == 0 ? std::string() : std::to_string(r.feature.facets);
    case Column::step:
      return r.feature.kind == Kind::pin ? shown_exact(r.step_mm) : std::string();
    default:
      return cell_editable(r, column);
  }
}

std::string cell_editable(const Reading& r, Column column) {
  switch (column) {
    case Column::feature:
      return r.feature.id;
    case Column::kind:
      return kind_and_axis(r.feature);
    case Column::axis:
      return std::string(spoken(r.feature.axis));
    case Column::drawn:
      return shortest(r.feature.nominal_mm);
    case Column::copy:
      return std::to_string(r.copy);
    case Column::turned:
      return std::to_string(r.turned_deg);
    case Column::repeat:
      return std::to_string(r.repeat);
    case Column::reading:
      return has_reading(r) ? shortest(r.reading_mm) : std::string();
    case Column::deviation:
      return cell_shown(r, column, Decimals{});
    case Column::remark:
      return {};
    case Column::side_a:
      return optional_text(r.feature.side_a_mm);
    case Column::side_b:
      return optional_text(r.feature.side_b_mm);
    case Column::facets:
      return std::to_string(r.feature.facets);
    case Column::edge_a:
      return r.feature.edge_a;
    case Column::edge_b:
      return r.feature.edge_b;
    case Column::step:
      return shortest(r.step_mm);
    case Column::part_c:
      return optional_text(r.part_c);
    case Column::note:
      return r.note;
  }
  return {};
}

}  // namespace fitwright
