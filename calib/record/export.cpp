#include <cmath>
#include <functional>

#include "base/file.hpp"
#include "base/json.hpp"
#include "base/number.hpp"
#include "base/text.hpp"
#include "record/exchange.hpp"
#include "record/rows.hpp"
#include "record/schema.hpp"
#include "record/staging.hpp"

namespace fitwright::record {
namespace {

using Put = std::function<void(std::string_view)>;

std::string json_cell(const Cell& cell) {
  if (const auto* text = std::get_if<std::string>(&cell)) return json_string(*text);
  if (const auto* whole = std::get_if<long long>(&cell)) return std::to_string(*whole);
  if (const auto* number = std::get_if<double>(&cell))
    return std::isfinite(*number) ? shortest(*number) : *number > 0 ? "\"inf\"" : "\"-inf\"";
  return "null";
}

/// Writes the document piece by piece: a row a line, so that two exports can be compared line by line.
ExportCount write_document(Database& database, const Put& put) {
  const Snapshot together(database);
  ExportCount count;
  std::size_t not_utf8 = 0;
  put("{\"fitwright_record\":" + std::to_string(export_format) +
      ",\"schema\":" + std::to_string(database.number("PRAGMA user_version").value_or(0)) + ",\"things\":{");
  bool first_table = true;
  for (const TableInfo& table : describe_things(database)) {
    put((first_table ? "\n" : ",\n") + json_string(table.name) + ":[");
    first_table = false;
    std::vector<std::string> keys;
    for (const ColumnInfo& column : table.columns)
      keys.push_back((keys.empty() ? "{" : ",") + json_string(column.name) + ":");
    bool first_row = true;
    std::string line;
    each_row(database, table, [&](const Row& row) {
      line = first_row ? "\n" : ",\n";
      first_row = false;
      for (std::size_t k = 0; k < row.size(); ++k) {
        if (invalid_utf8_at(text_of(row[k])) != std::string_view::npos) ++not_utf8;
        (line += keys[k]) += json_cell(row[k]);
      }
      put(line += '}');
      ++count.rows;
    });
    put(first_row ? "]" : "\n]");
  }
  put("\n}}\n");
  if (not_utf8 > 0)
    count.notes.push_back(std::to_string(not_utf8) + (not_utf8 == 1 ? " text is" : " texts are") +
                          " not UTF-8; the bytes that are not stand as U+FFFD");
  return count;
}

}  // namespace

Result<ExportCount> export_json(Record& record, const std::string& path) {
  if (is_record_file(path))
    return Problem{Code::bad_input,
                   {path, 0, 0},
                   "is a record, which an export would destroy",
                   "name another file for the export"};
  return guarded(record, [&]() -> Result<ExportCount> {
    auto file = FileInMaking::begin(path);
    if (!file) return file.problems();
    ExportCount count = write_document(record.database(), [&](std::string_view piece) { file->append(piece); });
    const auto written = file->commit();
    if (!written) return written.problems();
    return count;
  });
}

Result<std::string> export_json_text(Record& record) {
  return guarded(record, [&]() -> Result<std::string> {
    std::string text;
    write_document(record.database(), [&](std::string_view piece) { text += piece; });
    return text;
  });
}

}  // namespace fitwright::record
