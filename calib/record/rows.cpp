#include "record/rows.hpp"

#include <unordered_map>

#include "record/schema.hpp"

namespace fitwright::record {
namespace {

Cell cell_of(const Statement& statement, int at, ColumnType type) {
  if (statement.is_null(at)) return {};
  switch (type) {
    case ColumnType::integer:
      return statement.integer(at);
    case ColumnType::real:
      return statement.real(at);
    case ColumnType::text:
      break;
  }
  return statement.text(at);
}

void bind_cell(Statement& statement, int at, const Cell& cell) {
  if (const auto* text = std::get_if<std::string>(&cell)) statement.bind(at, std::string_view(*text));
  if (const auto* number = std::get_if<double>(&cell)) statement.bind(at, *number);
  if (const auto* whole = std::get_if<long long>(&cell)) statement.bind(at, *whole);
  // NULL is what a parameter is before it is bound.
}

std::string column_list(const TableInfo& table) {
  std::string list;
  for (const ColumnInfo& column : table.columns) list += (list.empty() ? "" : ", ") + column.name;
  return list;
}

Row read_row(const Statement& statement, const TableInfo& table) {
  Row row;
  row.reserve(table.columns.size());
  for (std::size_t k = 0; k < table.columns.size(); ++k)
    row.push_back(cell_of(statement, static_cast<int>(k), table.columns[k].type));
  return row;
}

}  // namespace

TableInfo describe(Database& database, const std::string& table) {
  TableInfo info{table, {}};
  std::unordered_map<std::string, std::string> references;
  database.each(
      "SELECT \"from\", \"table\" FROM pragma_foreign_key_list(?)",
      [&](Statement& row) { references[row.text(0)] = row.text(1); }, std::string_view(table));
  database.each(
      "SELECT name, type, \"notnull\" FROM pragma_table_info(?) ORDER BY cid",
      [&](Statement& row) {
        const std::string name = row.text(0), type = row.text(1);
        info.columns.push_back({name,
                                type == "INTEGER" ? ColumnType::integer
                                : type == "REAL"  ? ColumnType::real
                                                  : ColumnType::text,
                                row.integer(2) != 0, references[name]});
      },
      std::string_view(table));
  return info;
}

std::vector<TableInfo> describe_things(Database& database) {
  std::vector<TableInfo> tables;
  for (const std::string& name : thing_tables()) {
    TableInfo table = describe(database, name);
    if (!table.columns.empty()) tables.push_back(std::move(table));
  }
  return tables;
}

const std::string& text_of(const Cell& cell) {
  static const std::string none;
  const auto* text = std::get_if<std::string>(&cell);
  return text ? *text : none;
}

void each_row(Database& database, const TableInfo& table, const std::function<void(const Row&)>& take) {
  database.each("SELECT " + column_list(table) + " FROM " + table.name + " ORDER BY id",
                [&](Statement& statement) { take(read_row(statement, table)); });
}

std::optional<Row> row_of(Database& database, const TableInfo& table, const std::string& id) {
  std::optional<Row> found;
  database.each(
      "SELECT " + column_list(table) + " FROM " + table.name + " WHERE id = ?",
      [&](Statement& statement) { found = read_row(statement, table); }, std::string_view(id));
  return found;
}

std::optional<Row> newest_row_of(Database& database, const TableInfo& table, const std::string& thing) {
  std::optional<Row> found;
  database.each(
      "SELECT " + column_list(table) + " FROM " + table.name + " WHERE thing = ? ORDER BY at DESC, id DESC LIMIT 1",
      [&](Statement& statement) { found = read_row(statement, table); }, std::string_view(thing));
  return found;
}

void insert_row(Database& database, const TableInfo& table, const Row& row) {
  std::string marks;
  for (std::size_t k = 0; k < row.size(); ++k) marks += k ? ", ?" : "?";
  database.each_bound(
      "INSERT INTO " + table.name + " (" + column_list(table) + ") VALUES (" + marks + ")",
      [&](Statement& statement) {
        for (std::size_t k = 0; k < row.size(); ++k) bind_cell(statement, static_cast<int>(k) + 1, row[k]);
      },
      [](Statement&) {});
}

Snapshot::Snapshot(Database& database) : database_(database), outermost_(!database.in_transaction()) {
  if (outermost_) database_.script("BEGIN");
}

Snapshot::~Snapshot() {
  if (!outermost_ || !database_.in_transaction()) return;
  try {
    database_.script("COMMIT");
  } catch (const DatabaseError&) {
    // Nothing was written; the connection's end closes it.
  }
}

}  // namespace fitwright::record
