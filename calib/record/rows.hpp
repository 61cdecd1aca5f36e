#pragma once
// Rows of any table as plain cells: for what treats all tables alike (export, import, merge).

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "record/database.hpp"

namespace fitwright::record {

/// What a column of a table holds.
enum class ColumnType { text, real, integer };

struct ColumnInfo {
  std::string name;
  ColumnType type = ColumnType::text;
  bool required = false;  ///< NOT NULL
  std::string refers_to;  ///< table whose rows it names by id; empty when it names none
};

/// The columns that every table of things begins with.
enum CommonColumn { column_id, column_thing, column_amends, column_at, column_why, column_gone, common_columns };

struct TableInfo {
  std::string name;
  std::vector<ColumnInfo> columns;  ///< in the order of the database
};

/// A table as the database has it.
TableInfo describe(Database& database, const std::string& table);

/// All tables of things that the database has, in the order of thing_tables().
std::vector<TableInfo> describe_things(Database& database);

/// NULL, a whole number, a number, text.
using Cell = std::variant<std::monostate, long long, double, std::string>;
using Row = std::vector<Cell>;

/// The text of a cell; empty when it is not text.
const std::string& text_of(const Cell& cell);

/// All rows by id, one after the other.
void each_row(Database& database, const TableInfo& table, const std::function<void(const Row&)>& take);

/// One row by id.
std::optional<Row> row_of(Database& database, const TableInfo& table, const std::string& id);

/// The newest row of a thing (what holds, unless it ended), by time and then id.
std::optional<Row> newest_row_of(Database& database, const TableInfo& table, const std::string& thing);

void insert_row(Database& database, const TableInfo& table, const Row& row);

/// Reads of several tables that belong together: others may write meanwhile, and it is not seen.
class Snapshot {
 public:
  explicit Snapshot(Database& database);
  ~Snapshot();
  Snapshot(const Snapshot&) = delete;
  Snapshot& operator=(const Snapshot&) = delete;

 private:
  Database& database_;
  bool outermost_;
};

}  // namespace fitwright::record
