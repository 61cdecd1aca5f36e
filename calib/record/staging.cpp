#include "record/staging.hpp"

#include <algorithm>
#include <array>
#include <fstream>
#include <map>
#include <optional>

#include "base/json.hpp"
#include "base/text.hpp"
#include "reading/defects.hpp"
#include "record/exchange.hpp"
#include "record/json_row.hpp"
#include "record/rows.hpp"
#include "record/schema.hpp"

namespace fitwright::record {
namespace {

using Type = JsonValue::Type;

constexpr std::array<std::string_view, 3> head_keys{"fitwright_record", "schema", "things"};
constexpr std::size_t around_a_row = 3;  // the document, its "things", the list of a table

/// An empty database in memory with the tables of a version.
Database tables_of_version(int version) {
  Database database("", Access::memory);
  database.script("PRAGMA foreign_keys = OFF");
  std::vector<Migration> steps;
  for (const Migration& step : migrations())
    if (step.to <= version) steps.push_back(step);
  migrate(database, steps);
  return database;
}

Place noted_place(Database& database, const std::string& source, const std::string& table, const std::string& id) {
  Place place{source, 0, 0};
  database.each(
      "SELECT line, col FROM place WHERE tbl = ? AND id = ?",
      [&](Statement& row) {
        row.read(0, place.line);
        row.read(1, place.column);
      },
      std::string_view(table), std::string_view(id));
  return place;
}

/// A version of the document's head; 0 and a defect when it is none.
int version_in(const JsonValue& head, std::string_view key, int newest, Defects& defects) {
  const JsonValue* value = head.find(key);
  const std::string name = quote(key);
  if (!value) {
    defects.add(head.line, head.column, "there is no " + name,
                "check that it is a record written by fitw record export");
    return 0;
  }
  if (!value->is(Type::number) || !value->whole || value->number < 1) {
    defects.add(value->line, value->column, name + " is " + in_short(*value) + " where a whole number from 1 is needed",
                "take the file as it was exported");
    return 0;
  }
  if (value->number > newest) {
    defects.add(value->line, value->column,
                name + " is " + in_short(*value) + ": this file was written by a newer version of the program, " +
                    "and this one knows up to " + std::to_string(newest),
                "read it with the newer version, or export it there again for this one");
    return 0;
  }
  return static_cast<int>(value->number);
}

/// Looks at everything but the rows. The version of the tables; 0 when there are defects.
int check_head(const JsonValue& head, Defects& defects) {
  if (!head.is(Type::object)) {
    defects.add(head.line, head.column, "the file holds " + std::string(word(head.type)) + " where an object is needed",
                "check that it is a record written by fitw record export");
    return 0;
  }
  const int format = version_in(head, head_keys[0], export_format, defects);
  const int version = version_in(head, head_keys[1], schema_version, defects);
  if (!defects.empty()) return 0;  // of a file of another kind, or a newer one, nothing else is worth telling
  for (const auto& member : head.members)
    if (std::find(head_keys.begin(), head_keys.end(), member.name) == head_keys.end())
      defects.add(member.line, member.column, quote(member.name) + " is not known here", "leave it out");
  const JsonValue* things = head.find(head_keys[2]);
  if (!things || !things->is(Type::object))
    defects.add(things ? things->line : head.line, things ? things->column : head.column,
                things ? "\"things\" is " + in_short(*things) + " where an object is needed" : "there is no \"things\"",
                "take the file as it was exported");
  else {
    const std::vector<std::string_view> known(thing_tables().begin(), thing_tables().end());
    for (const auto& member : things->members) {
      if (std::find(known.begin(), known.end(), member.name) == known.end()) {
        const std::string_view meant = nearest(member.name, known);
        defects.add(member.line, member.column, quote(member.name) + " is no kind of thing that the record keeps",
                    meant.empty() ? "leave it out" : "write " + quote(meant) + " if that is meant");
      } else if (!member.value.is(Type::array)) {
        defects.add(member.value.line, member.value.column,
                    quote(member.name) + " is " + in_short(member.value) + " where a list of rows is needed",
                    "take the file as it was exported");
      }
    }
  }
  return format > 0 && defects.empty() ? version : 0;
}

/// Whether the row was put in; otherwise its defects were told.
void take_row(Database& database, const TableInfo& table, const JsonValue& item, Defects& defects) {
  const std::optional<Row> row = row_from(item, table, defects);
  if (!row) return;
  const std::string& id = text_of((*row)[column_id]);
  const Place before = noted_place(database, {}, table.name, id);
  if (before.line > 0) {
    defects.add(item.line, item.column,
                "this " + table.name + " has the id " + id + " of the one in line " + std::to_string(before.line),
                "keep one of the two");
    return;
  }
  try {
    insert_row(database, table, *row);
  } catch (const DatabaseError& error) {
    defects.add(item.line, item.column, "this " + table.name + " " + broken_rule(error, *row, table),
                "see docs/formats.md for what its columns may hold");
    return;
  }
  database.run("INSERT INTO place VALUES (?, ?, ?, ?)", std::string_view(table.name), std::string_view(id), item.line,
               item.column);
}

}  // namespace

Place place_of(Database& database, const std::string& source, const std::string& table, const std::string& id) {
  if (database.access() == Access::memory && database.number("SELECT 1 FROM sqlite_master WHERE name = 'place'"))
    return noted_place(database, source, table, id);
  return {source, 0, 0};
}

Result<Database> stage_json(const std::string& json, const std::string& source) {
  // Twice over the text: whether it is a file for this version is known before its rows are looked at.
  JsonItems items{around_a_row, [](const auto&, JsonValue&&) {}};
  const auto head = parse_json(json, source, items);
  if (!head) return head.problems();
  Defects defects(source);
  const int version = check_head(*head, defects);
  if (!defects.empty()) return defects.take();

  Database database = tables_of_version(version);
  Transaction whole(database);
  database.script(
      "CREATE TABLE place (tbl TEXT NOT NULL, id TEXT NOT NULL, line INTEGER NOT NULL, col INTEGER NOT NULL,"
      " PRIMARY KEY (tbl, id)) STRICT, WITHOUT ROWID");
  std::map<std::string, TableInfo> tables;
  for (TableInfo& table : describe_things(database)) tables.emplace(table.name, std::move(table));
  items.take = [&](const std::vector<std::string>& names, JsonValue&& item) {
    take_row(database, tables.at(names.back()), item, defects);
  };
  const auto again = parse_json(json, source, items);
  if (!again) return again.problems();
  if (!defects.empty()) return defects.take();
  whole.commit();
  migrate(database);
  return database;
}

bool is_record_file(const std::string& path) {
  constexpr std::string_view begins_with{"SQLite format 3\0", 16};
  std::ifstream in(path, std::ios::binary);
  std::string head(begins_with.size(), '\0');
  return in.read(head.data(), static_cast<std::streamsize>(head.size())) && head == begins_with;
}

Database stage_older(Database& older) {
  Database database = tables_of_version(static_cast<int>(older.number("PRAGMA user_version").value_or(0)));
  {
    Transaction whole(database);
    for (const TableInfo& table : describe_things(older))
      each_row(older, table, [&](const Row& row) { insert_row(database, table, row); });
    whole.commit();
  }
  migrate(database);
  return database;
}

}  // namespace fitwright::record
