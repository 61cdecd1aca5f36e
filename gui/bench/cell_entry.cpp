#include "bench/cell_entry.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "base/number.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

constexpr double mm_per_inch = 25.4;   // exact by definition (international inch, 1959)
constexpr double longest_mm = 10'000;  // ten metres: beyond any caliper; a longer entry is a slip

Problem wrong(const std::string& text, const std::string& what, const std::string& remedy) {
  return {Code::bad_input, {}, "\"" + text + "\" is not " + what, remedy};
}

bool ends_with(const std::string& text, std::string_view ending) {
  return text.size() >= ending.size() && text.compare(text.size() - ending.size(), ending.size(), ending) == 0;
}

/// A length in `least`..`longest_mm`.
std::optional<double> bounded(const std::string& text, double least) {
  const auto mm = length_from_entry(text);
  return mm && *mm >= least && *mm <= longest_mm ? mm : std::nullopt;
}

std::string axes_in_words(Kind kind) {
  std::string list;
  for (const Axis axis : axes_of(kind)) {
    const auto name = spoken(axis);
    list += (list.empty() ? "" : ", ") + (name.empty() ? std::string("no axis") : std::string(name));
  }
  return list;
}

/// "slot Y" or "slot": kind, and axis where one is named.
std::optional<std::pair<Kind, std::optional<Axis>>> kind_and_axis_from(const std::string& text) {
  if (const auto kind = kind_from_speech(text)) return std::pair{*kind, std::optional<Axis>{}};
  const std::string words = folded(text);
  const auto blank = words.find_last_of(' ');
  if (blank == std::string::npos) return std::nullopt;
  const auto kind = kind_from_speech(words.substr(0, blank));
  const auto axis = axis_from_speech(words.substr(blank + 1));
  if (!kind || !axis) return std::nullopt;
  return std::pair{*kind, axis};
}

/// Sets the kind; an axis that the kind does not have falls to its first.
void set_kind(Feature& feature, Kind kind) {
  feature.kind = kind;
  const auto axes = axes_of(kind);
  if (!axes.empty() && std::find(axes.begin(), axes.end(), feature.axis) == axes.end()) feature.axis = axes.front();
}

Result<Reading> with_reading(Reading r, const std::string& text) {
  if (folded(text).empty() || folded(text) == "\u00b7") {
    r.reading_mm = std::numeric_limits<double>::quiet_NaN();
    return r;
  }
  const bool zero_allowed = r.feature.kind == Kind::zero;
  const auto mm = bounded(text, zero_allowed ? -longest_mm : 0.0);
  if (!mm || (!zero_allowed && *mm == 0))
    return wrong(text, "a reading", "type what the caliper shows, such as 40.12, or 1.575 in");
  r.reading_mm = *mm;
  return r;
}

Result<Reading> with_whole(Reading r, Column column, const std::string& text) {
  std::string digits = folded(text);
  if (ends_with(digits, "\u00b0")) digits.resize(digits.size() - std::string_view("\u00b0").size());
  const auto number = parse_whole(digits);
  if (column == Column::turned) {
    if (!number || *number < 0 || *number > 270 || *number % 90 != 0)
      return wrong(text, "how a copy can lie", "type 0, 90, 180 or 270");
    r.turned_deg = *number;
  } else if (column == Column::facets) {
    if (!number || (*number != 0 && *number < 3))
      return wrong(text, "a number of facets", "type 0 for a true circle, or 3 and more");
    r.feature.facets = *number;
  } else {
    if (!number || *number < 1) return wrong(text, "a number of 1 or more", "type 1, 2, 3, ...");
    (column == Column::copy ? r.copy : r.repeat) = *number;
  }
  return r;
}

Result<Reading> with_size(Reading r, Column column, const std::string& text) {
  const bool optional = column == Column::side_a || column == Column::side_b;
  std::optional<double> mm;
  if (!(optional && folded(text).empty())) {
    const bool zero_allowed = column == Column::drawn && r.feature.kind == Kind::zero;
    mm = bounded(text, 0.0);
    if (!mm || (*mm == 0 && !zero_allowed)) return wrong(text, "a length", "type a length in mm, such as 40 or 12.5");
  }
  if (column == Column::drawn) r.feature.nominal_mm = *mm;
  if (column == Column::side_a) r.feature.side_a_mm = mm;
  if (column == Column::side_b) r.feature.side_b_mm = mm;
  if (column == Column::step) r.step_mm = *mm;
  return r;
}

}  // namespace

std::optional<double> length_from_entry(const std::string& text) {
  std::string digits = folded(text);
  double factor = 1;
  for (const std::string_view unit : {"mm", "in", "\""}) {
    if (!ends_with(digits, unit)) continue;
    digits.resize(digits.size() - unit.size());
    if (unit != "mm") factor = mm_per_inch;
    break;
  }
  const auto value = parse_number(digits, digits.find(',') != std::string::npos);
  return value ? std::optional(*value * factor) : std::nullopt;
}

bool belongs_to_feature(Column column) {
  switch (column) {
    case Column::kind:
    case Column::axis:
    case Column::drawn:
    case Column::side_a:
    case Column::side_b:
    case Column::facets:
    case Column::edge_a:
    case Column::edge_b:
      return true;
    default:
      return false;
  }
}

Result<Reading> with_cell(const Reading& reading, Column column, const std::string& text) {
  Reading r = reading;
  switch (column) {
    case Column::feature:
      if (folded(text).empty()) return wrong(text, "a feature name", "type the name engraved on the part, such as X40");
      r.feature.id = text;
      return r;
    case Column::kind: {
      const auto found = kind_and_axis_from(text);
      if (!found)
        return wrong(text, "a kind of feature", "type outer X, slot Y, hole, peg, pin hole, wall, flats + ...");
      set_kind(r.feature, found->first);
      return found->second ? with_cell(r, Column::axis, std::string(spoken(*found->second))) : Result<Reading>(r);
    }
    case Column::axis: {
      const auto axis = axis_from_speech(text);
      const auto axes = axes_of(r.feature.kind);
      if (!axis || std::find(axes.begin(), axes.end(), *axis) == axes.end())
        return wrong(text, "an axis of this kind of feature", "it can have: " + axes_in_words(r.feature.kind));
      r.feature.axis = *axis;
      return r;
    }
    case Column::drawn:
    case Column::side_a:
    case Column::side_b:
    case Column::step:
      return with_size(std::move(r), column, text);
    case Column::copy:
    case Column::turned:
    case Column::repeat:
    case Column::facets:
      return with_whole(std::move(r), column, text);
    case Column::reading:
      return with_reading(std::move(r), text);
    case Column::edge_a:
      r.feature.edge_a = text;
      return r;
    case Column::edge_b:
      r.feature.edge_b = text;
      return r;
    case Column::part_c: {
      r.part_c = parse_number(text, text.find(',') != std::string::npos);
      if (!r.part_c && !folded(text).empty())
        return wrong(text, "a temperature", "type degrees Celsius, such as 21, or leave it empty");
      return r;
    }
    case Column::note:
      r.note = text;
      return r;
    case Column::deviation:
    case Column::remark:
      break;
  }
  return Problem{Code::usage, {}, "this column is computed from the others", "change the reading or the drawn size"};
}

}  // namespace fitwright
