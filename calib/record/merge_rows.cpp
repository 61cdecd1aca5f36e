#include "record/merge_rows.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "base/number.hpp"
#include "base/text.hpp"
#include "record/staging.hpp"
#include "record/store.hpp"

namespace fitwright::record {
namespace {

bool exists(Database& database, const std::string& table, const std::string& id) {
  return database.number("SELECT 1 FROM " + table + " WHERE id = ?", std::string_view(id)).has_value();
}

/// FNV-1a, 64 bits: tells one content from another when a merge is repeated.
std::string mark_of(const Row& row, const TableInfo& table) {
  std::uint64_t hash = 0xcbf29ce484222325u;
  const auto take = [&](std::string_view bytes) {
    for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3u;
  };
  for (std::size_t k = 0; k < row.size(); ++k) {
    take(table.columns[k].name);
    if (const auto* text = std::get_if<std::string>(&row[k])) take("t" + *text);
    if (const auto* whole = std::get_if<long long>(&row[k])) take("i" + std::to_string(*whole));
    if (const auto* number = std::get_if<double>(&row[k])) take("r" + shortest(*number));
    take(std::string_view("\0", 1));
  }
  return std::to_string(hash);
}

class RowTaker {
 public:
  RowTaker(Merging& merging, const TableInfo& table)
      : m_(merging), table_(table), last_found_(table.columns.size()), count_{table.name, 0, 0} {}

  void take(const Row& row) {
    const std::string& id = text_of(row[column_id]);
    if (const auto held = row_of(m_.ours, table_, id)) {
      ++count_.present;
      if (*held != row) list_changed(*held, row);
      return;
    }
    if (!references_are_there(row)) return;
    if (!std::holds_alternative<std::monostate>(row[column_amends])) amendments_.push_back(id);
    insert_row(m_.ours, table_, row);
    ++count_.added;
  }

  /// What can be told only when all rows of the table are there.
  void finish() {
    for (const std::string& id : amendments_) check_amendment(*row_of(m_.ours, table_, id));
    m_.report.added += count_.added;
    m_.report.present += count_.present;
    if (count_.added + count_.present > 0) m_.report.tables.push_back(count_);
  }

 private:
  Merging& m_;
  const TableInfo& table_;
  std::vector<std::string> last_found_;  ///< by column: the reference looked up last, often that of the next row too
  std::vector<std::string> amendments_;
  TableMerged count_;

  void tell(const Row& row, const std::string& what) {
    const std::string& id = text_of(row[column_id]);
    m_.problems.push_back({Code::bad_input, place_of(m_.theirs, m_.report.source, table_.name, id),
                           "the " + table_.name + " " + id + " " + what,
                           "take the file as it was exported, or give both records together"});
  }

  /// References to other tables, whose rows have been taken already.
  bool references_are_there(const Row& row) {
    bool all = true;
    for (std::size_t k = 0; k < row.size(); ++k) {
      const ColumnInfo& column = table_.columns[k];
      const std::string& id = text_of(row[k]);
      if (column.refers_to.empty() || column.refers_to == table_.name || id.empty() || id == last_found_[k]) continue;
      if (exists(m_.ours, column.refers_to, id)) {
        last_found_[k] = id;
      } else {
        tell(row, "refers to the " + column.refers_to + " " + quote(id) + ", which is in neither record");
        all = false;
      }
    }
    return all;
  }

  void check_amendment(const Row& row) {
    const std::string& thing = text_of(row[column_thing]);
    const auto before = row_of(m_.ours, table_, text_of(row[column_amends]));
    const auto first = row_of(m_.ours, table_, thing);
    if (!before)
      tell(row, "amends the row " + quote(text_of(row[column_amends])) + ", which is in neither record");
    else if (!first || text_of((*first)[column_thing]) != thing)
      tell(row, "amends the thing " + quote(thing) + ", which is in neither record");
    else if (text_of((*before)[column_thing]) != thing)
      tell(row, "amends a row of another thing");
    else if (text_of((*before)[column_at]) >= text_of(row[column_at]))
      tell(row, "is not later than the row it amends");
    m_.amended[table_.name].insert(thing);
  }

  void list_changed(const Row& ours, const Row& theirs) {
    Conflict conflict = conflict_of(m_, Conflict::Kind::changed_row, table_, ours, theirs, nullptr);
    const std::string key =
        "told in a merge: " + table_.name + " " + conflict.ours.row.text + " " + mark_of(theirs, table_);
    conflict.known = m_.ours.number("SELECT 1 FROM about WHERE key = ?", std::string_view(key)).has_value();
    if (!conflict.known)
      m_.ours.run("INSERT INTO about VALUES (?, ?)", std::string_view(key), std::string_view(now_utc()));
    m_.report.conflicts.push_back(std::move(conflict));
  }
};

ConflictSide side_of(const Row& row) {
  return {Id{text_of(row[column_id])}, Id{text_of(row[column_thing])}, text_of(row[column_at]),
          text_of(row[column_why]), row[column_gone] != Cell{0LL}};
}

/// The name of a thing, or what tells it apart; empty when there is nothing.
std::string name_in(const TableInfo& table, const Row& row) {
  for (const char* telling : {"name", "feature_id", "design", "printed_on", "began", "what", "axis", "words"})
    for (std::size_t k = common_columns; k < row.size(); ++k)
      if (table.columns[k].name == telling && !text_of(row[k]).empty()) return text_of(row[k]);
  return {};
}

}  // namespace

void take_rows(Merging& merging) {
  for (const TableInfo& table : merging.tables) {
    RowTaker taker(merging, table);
    each_row(merging.theirs, table, [&](const Row& row) { taker.take(row); });
    taker.finish();
  }
}

std::string shown(Database& database, const ColumnInfo& column, const Cell& cell) {
  if (const auto* whole = std::get_if<long long>(&cell)) return std::to_string(*whole);
  if (const auto* number = std::get_if<double>(&cell)) return shortest(*number);
  const std::string& text = text_of(cell);
  if (text.empty() || column.refers_to.empty()) return text;
  const auto names =
      database.number("SELECT 1 FROM pragma_table_info(?) WHERE name = 'name'", std::string_view(column.refers_to));
  const auto name =
      names ? database.word("SELECT name FROM " + column.refers_to + "_now WHERE thing = ?", std::string_view(text))
            : std::nullopt;
  return name ? *name + " (" + text + ")" : text;
}

Conflict conflict_of(Merging& merging, Conflict::Kind kind, const TableInfo& table, const Row& ours, const Row& theirs,
                     const Row* base) {
  Conflict conflict;
  conflict.kind = kind;
  conflict.table = table.name;
  conflict.name = name_in(table, ours);
  conflict.ours = side_of(ours);
  conflict.theirs = side_of(theirs);
  // Of a changed fact everything is told; of two rows that differ anyway what they say about the thing.
  const bool same_row = kind == Conflict::Kind::changed_row;
  for (std::size_t k = same_row ? column_thing : column_gone; k < ours.size(); ++k) {
    const ColumnInfo& column = table.columns[k];
    if (ours[k] == theirs[k]) continue;
    conflict.fields.push_back({column.name, base ? shown(merging.ours, column, (*base)[k]) : std::string(),
                               shown(merging.ours, column, ours[k]), shown(merging.ours, column, theirs[k])});
  }
  return conflict;
}

}  // namespace fitwright::record
