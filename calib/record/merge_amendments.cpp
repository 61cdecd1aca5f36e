// Two benches amended the same thing: told from who amended whose row.

#include <algorithm>
#include <optional>
#include <set>

#include "record/merge_rows.hpp"

namespace fitwright::record {
namespace {

/// The ids of a row and of all that it goes back to, newest first.
std::vector<std::string> line_of(Database& database, const TableInfo& table, std::string id) {
  std::vector<std::string> line;
  const std::string before = "SELECT amends FROM " + table.name + " WHERE id = ?";
  std::set<std::string> seen;  // a record damaged by hand could go round in circles
  while (!id.empty() && seen.insert(id).second) {
    line.push_back(id);
    id = database.word(before, std::string_view(line.back())).value_or("");
  }
  return line;
}

/// Equal in everything that is said about the thing, and in whether it ended.
bool say_the_same(const Row& a, const Row& b) {
  return std::equal(a.begin() + column_gone, a.end(), b.begin() + column_gone, b.end());
}

}  // namespace

std::vector<BothAmended> amended_by_both(Merging& merging) {
  std::vector<BothAmended> both;
  for (const TableInfo& table : merging.tables)
    merging.theirs.each("SELECT DISTINCT thing FROM " + table.name + " WHERE amends IS NOT NULL ORDER BY thing",
                        [&](Statement& statement) {
                          const std::string thing = statement.text(0);
                          const auto ours = newest_row_of(merging.ours, table, thing);
                          const auto theirs = newest_row_of(merging.theirs, table, thing);
                          if (!ours || !theirs || (*ours)[column_id] == (*theirs)[column_id]) return;
                          both.push_back({&table, thing, text_of((*ours)[column_id]), text_of((*theirs)[column_id])});
                        });
  return both;
}

void list_amendments(Merging& merging, const std::vector<BothAmended>& candidates) {
  for (const BothAmended& both : candidates) {
    const TableInfo& table = *both.table;
    const auto our_line = line_of(merging.ours, table, both.ours),
               their_line = line_of(merging.ours, table, both.theirs);
    const std::set<std::string> known(our_line.begin(), our_line.end());
    const auto meeting =
        std::find_if(their_line.begin(), their_line.end(), [&](const std::string& id) { return known.count(id) > 0; });
    // One goes back to the other: that one was amended, and nobody amended beside it.
    if (meeting == their_line.begin() || (meeting != their_line.end() && *meeting == both.ours)) continue;
    const auto ours = row_of(merging.ours, table, both.ours), theirs = row_of(merging.ours, table, both.theirs);
    if (!ours || !theirs) continue;  // a row of theirs that was not taken: told as a problem
    if (say_the_same(*ours, *theirs)) {
      ++merging.report.agreed;
      continue;
    }
    const auto base = meeting == their_line.end() ? std::nullopt : row_of(merging.ours, table, *meeting);
    Conflict conflict =
        conflict_of(merging, Conflict::Kind::two_amendments, table, *ours, *theirs, base ? &*base : nullptr);
    const auto holds = newest_row_of(merging.ours, table, both.thing);
    conflict.theirs_holds = holds && text_of((*holds)[column_id]) == both.theirs;
    conflict.known = merging.amended[table.name].count(both.thing) == 0;
    merging.report.conflicts.push_back(std::move(conflict));
  }
}

}  // namespace fitwright::record
