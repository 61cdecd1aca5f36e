#include "bench/edit.hpp"

#include <algorithm>
#include <limits>
#include <utility>

#include "bench/cell_entry.hpp"
#include "bench/shown.hpp"
#include "reading/csv.hpp"

namespace fitwright {
namespace {

Content with_rows(const Content& content, ReadingSet readings) {
  Content next = content;
  next.readings = std::make_shared<const ReadingSet>(std::move(readings));
  return next;
}

/// What the rest of the readings must take over from a changed row. Returns how many other rows followed.
std::size_t spread(ReadingSet& readings, std::size_t row, Column column) {
  const Reading changed = readings.rows[row];
  std::size_t others = 0;
  for (std::size_t i = 0; i < readings.rows.size(); ++i) {
    Reading& r = readings.rows[i];
    if (i == row) continue;
    if (belongs_to_feature(column) && r.feature.id == changed.feature.id) {
      r.feature = changed.feature;
    } else if (column == Column::turned && r.copy == changed.copy && !is_steel(r.feature.kind)) {
      r.turned_deg = changed.turned_deg;
    } else {
      continue;
    }
    ++others;
  }
  return others;
}

/// A row renamed to a feature, or moved to a copy, that others already describe takes their description.
void adopt(ReadingSet& readings, std::size_t row, Column column) {
  Reading& changed = readings.rows[row];
  for (std::size_t i = 0; i < readings.rows.size(); ++i) {
    const Reading& other = readings.rows[i];
    if (i == row) continue;
    if (column == Column::feature && other.feature.id == changed.feature.id) {
      changed.feature = other.feature;
      return;
    }
    if (column == Column::copy && other.copy == changed.copy && !is_steel(other.feature.kind)) {
      changed.turned_deg = other.turned_deg;
      return;
    }
  }
}

std::string quantity(Column column) {
  switch (column) {
    case Column::feature:
      return "name";
    case Column::kind:
      return "kind";
    case Column::axis:
      return "axis";
    case Column::drawn:
      return "drawn size";
    case Column::copy:
      return "copy";
    case Column::turned:
      return "lie on the bed";
    case Column::repeat:
      return "repeat";
    case Column::reading:
      return "reading";
    default:
      return "\"" + info(column).title + "\"";
  }
}

/// Sets one cell in place. Returns how many other rows followed.
Result<std::size_t> put(ReadingSet& readings, std::size_t row, Column column, const std::string& text) {
  auto changed = with_cell(readings.rows.at(row), column, text);
  if (!changed) return changed.problems();
  readings.rows[row] = *std::move(changed);
  adopt(readings, row, column);
  return spread(readings, row, column);
}

std::vector<std::string> split(const std::string& text, char separator) {
  std::vector<std::string> parts(1);
  for (const char c : text) {
    if (c == separator) {
      parts.emplace_back();
    } else if (c != '\r') {
      parts.back() += c;
    }
  }
  return parts;
}

/// Rows of the readings' file, pasted with their header: added at the end.
Result<Edit> paste_rows(const Content& content, const std::string& text) {
  auto pasted = parse_readings(text, "pasted rows");
  if (!pasted) return pasted.problems();
  ReadingSet readings = *content.readings;
  for (Reading& r : pasted->rows) {
    r.row = 0;
    readings.rows.push_back(std::move(r));
  }
  const std::string count = counted(pasted->rows.size(), "row", "rows");
  return Edit{with_rows(content, std::move(readings)), "pasting " + count, count + " added at the end"};
}

}  // namespace

Result<Edit> set_cell(const Content& content, std::size_t row, Column column, const std::string& text) {
  ReadingSet readings = *content.readings;
  const auto others = put(readings, row, column, text);
  if (!others) return others.problems();
  Edit edit;
  edit.label = quantity(column) + " of " + readings.rows[row].feature.id;
  if (*others > 0)
    edit.said =
        (column == Column::turned ? "Copy " + std::to_string(readings.rows[row].copy) : readings.rows[row].feature.id) +
        ": changed in " + counted(*others + 1, "row", "rows");
  edit.next = with_rows(content, std::move(readings));
  return edit;
}

Edit insert_row(const Content& content, std::size_t row) {
  ReadingSet readings = *content.readings;
  row = std::min(row, readings.rows.size());
  Reading fresh;
  if (row > 0) fresh = readings.rows[row - 1];
  if (row == 0) {
    fresh.feature.id = "X20";
    fresh.feature.nominal_mm = 20;
    fresh.repeat = 0;
  }
  for (const Reading& r : readings.rows)
    if (r.feature.id == fresh.feature.id && r.copy == fresh.copy) fresh.repeat = std::max(fresh.repeat, r.repeat);
  ++fresh.repeat;
  fresh.reading_mm = std::numeric_limits<double>::quiet_NaN();
  fresh.row = 0;
  fresh.note.clear();
  readings.rows.insert(readings.rows.begin() + static_cast<std::ptrdiff_t>(row), fresh);
  return {with_rows(content, std::move(readings)), "new row of " + fresh.feature.id, {}};
}

Edit delete_rows(const Content& content, std::vector<std::size_t> rows) {
  std::sort(rows.begin(), rows.end());
  rows.erase(std::unique(rows.begin(), rows.end()), rows.end());
  ReadingSet readings = *content.readings;
  for (auto it = rows.rbegin(); it != rows.rend(); ++it) {
    (void)readings.rows.at(*it);
    readings.rows.erase(readings.rows.begin() + static_cast<std::ptrdiff_t>(*it));
  }
  const std::string count = counted(rows.size(), "row", "rows");
  return {with_rows(content, std::move(readings)), "taking out " + count, count + " taken out; undo brings back"};
}

Result<Edit> paste_block(const Content& content, std::size_t row, const std::vector<Column>& columns, std::size_t first,
                         const std::string& text) {
  std::vector<std::string> lines = split(text, '\n');
  while (!lines.empty() && folded(lines.back()).empty()) lines.pop_back();
  if (lines.empty())
    return Problem{Code::bad_input, {}, "there is nothing to paste", "copy a column of readings first"};
  if (lines.front().find("feature_id") != std::string::npos) return paste_rows(content, text);

  ReadingSet readings = *content.readings;
  Problems problems;
  if (row + lines.size() > readings.rows.size())
    problems.push_back({Code::bad_input,
                        {},
                        "the block has " + counted(lines.size(), "line", "lines") + ", but there are " +
                            counted(readings.rows.size() - std::min(row, readings.rows.size()), "row", "rows") +
                            " from here to the end",
                        "add rows first, or start higher up"});
  std::size_t cells = 0;
  for (std::size_t i = 0; i < lines.size() && row + i < readings.rows.size(); ++i) {
    const auto texts = split(lines[i], '\t');
    for (std::size_t j = 0; j < texts.size(); ++j) {
      const Place where{"pasted block", static_cast<int>(i + 1), static_cast<int>(j + 1)};
      if (first + j >= columns.size()) {
        problems.push_back({Code::bad_input, where, "the block reaches beyond the last column", "start further left"});
        break;
      }
      if (!info(columns[first + j]).editable) continue;  // a copied computed column comes back as it is
      auto done = put(readings, row + i, columns[first + j], texts[j]);
      if (done) {
        ++cells;
        continue;
      }
      for (Problem problem : done.problems()) {
        problem.where = where;
        problems.push_back(std::move(problem));
      }
    }
  }
  if (!problems.empty()) return problems;
  return Edit{with_rows(content, std::move(readings)), "pasting " + counted(cells, "cell", "cells"),
              counted(cells, "cell", "cells") + " pasted"};
}

Edit with_wishes(const Content& content, const Wishes& wishes, std::string label) {
  Edit edit{content, std::move(label), {}};
  edit.next.wishes = wishes;
  return edit;
}

Edit with_state(const Content& content, const State& state) {
  Edit edit{content, "settings of the print", {}};
  edit.next.state = state;
  return edit;
}

}  // namespace fitwright
