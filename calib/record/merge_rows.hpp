#pragma once
// The steps of a merge, one file each: taking rows, amendments that part, equal names.

#include <map>
#include <set>
#include <string>
#include <vector>

#include "record/exchange.hpp"
#include "record/rows.hpp"

namespace fitwright::record {

/// A merge under way, within one transaction on `ours` and one snapshot of `theirs`.
struct Merging {
  Database& ours;
  Database& theirs;
  const std::vector<TableInfo>& tables;
  MergeReport& report;
  Problems problems;  ///< of the rows of theirs
  /// Rows that are amendments and new to ours, by table: the things they amend.
  std::map<std::string, std::set<std::string>> amended;
};

/// Takes the rows that ours does not have, and lists those with another content. Rows that refer to what is not there
/// or amend what they cannot are in `problems`.
void take_rows(Merging& merging);

/// Things that both amended: the newest row of each, found before rows are taken.
struct BothAmended {
  const TableInfo* table = nullptr;
  std::string thing, ours, theirs;  ///< ids
};
std::vector<BothAmended> amended_by_both(Merging& merging);
/// Lists those where neither is an amendment of the other; to be called when the rows have been taken.
void list_amendments(Merging& merging, const std::vector<BothAmended>& candidates);

/// Names of things as they hold now, by table and thing; spools also by batch.
struct NamesNow {
  std::map<std::string, std::map<std::string, std::string>> by_table;  ///< table -> thing -> what is compared
};
NamesNow names_now(Database& database, const std::vector<TableInfo>& tables);
/// Lists things that have one name, at least one of them in theirs. `before`: ours before rows were taken.
void list_equal_names(Merging& merging, const NamesNow& before);

/// A conflict of two rows of a table, with the fields in which they differ. `base` may be null.
Conflict conflict_of(Merging& merging, Conflict::Kind kind, const TableInfo& table, const Row& ours, const Row& theirs,
                     const Row* base);

/// A cell as it stands in the JSON file, text without its quotes; a reference with the name of what it names.
std::string shown(Database& database, const ColumnInfo& column, const Cell& cell);

}  // namespace fitwright::record
