// Two things of one name: two printers "Heron" from two benches may be one machine or two. Only a person knows.

#include <algorithm>
#include <utility>

#include "base/text.hpp"
#include "record/merge_rows.hpp"

namespace fitwright::record {
namespace {

/// Names are compared without blanks at the ends and without regard to case (of the letters a to z).
std::string compared(std::string_view name) {
  std::string out(without_blanks(name));
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

bool has_name(const TableInfo& table) {
  return std::any_of(table.columns.begin(), table.columns.end(), [](const auto& c) { return c.name == "name"; });
}

const char* const batches = "spool by batch";  // the second list of spools

/// The names that a list has; none where it is not there.
const std::map<std::string, std::string>& names_in(const NamesNow& names, const std::string& list) {
  static const std::map<std::string, std::string> none;
  const auto found = names.by_table.find(list);
  return found == names.by_table.end() ? none : found->second;
}

bool has(const std::map<std::string, std::string>& names, const std::string& thing, const std::string& name) {
  const auto found = names.find(thing);
  return found != names.end() && found->second == name;
}

class NameLister {
 public:
  NameLister(Merging& merging, const NamesNow& before, const NamesNow& after)
      : m_(merging), before_(before), theirs_(names_now(merging.theirs, merging.tables)), after_(after) {}

  void list(const TableInfo& table, const std::string& names) {
    std::map<std::string, std::vector<std::string>> by_name;
    for (const auto& [thing, name] : names_in(after_, names))
      if (!name.empty()) by_name[name].push_back(thing);
    for (auto& [name, things] : by_name) {
      if (things.size() < 2) continue;
      sort_by_entry(table, things);
      list_group(table, names, name, things);
    }
  }

 private:
  Merging& m_;
  const NamesNow& before_;  ///< ours
  const NamesNow theirs_;
  const NamesNow& after_;
  std::set<std::pair<std::string, std::string>> listed_;  ///< ids are unique over all tables

  void sort_by_entry(const TableInfo& table, std::vector<std::string>& things) {
    std::vector<std::pair<std::string, std::string>> keys;
    for (const std::string& thing : things) {
      const auto entered = m_.ours.word("SELECT at FROM " + table.name + " WHERE id = ?", std::string_view(thing));
      keys.emplace_back(entered.value_or(""), thing);
    }
    std::sort(keys.begin(), keys.end());
    for (std::size_t k = 0; k < things.size(); ++k) things[k] = std::move(keys[k].second);
  }

  /// New is what neither bench had together: each thing that had the name on one bench only is held against the first
  /// such thing of the other. (Not all against all: a file made to annoy could have a million of one name.)
  void list_group(const TableInfo& table, const std::string& names, const std::string& name,
                  const std::vector<std::string>& things) {
    std::vector<std::string> only_ours, only_theirs;
    for (const std::string& thing : things) {
      const bool in_ours = has(names_in(before_, names), thing, name);
      const bool in_theirs = has(names_in(theirs_, names), thing, name);
      if (in_ours && !in_theirs) only_ours.push_back(thing);
      if (in_theirs && !in_ours) only_theirs.push_back(thing);
    }
    if (!only_ours.empty())
      for (const std::string& thing : only_theirs) list_pair(table, only_ours[0], thing, false);
    if (!only_theirs.empty())
      for (const std::string& thing : only_ours) list_pair(table, thing, only_theirs[0], false);
    if (only_ours.empty() || only_theirs.empty())
      for (std::size_t k = 1; k < things.size(); ++k) list_pair(table, things[0], things[k], true);
  }

  void list_pair(const TableInfo& table, const std::string& a, const std::string& b, bool known) {
    if (!row_of(m_.theirs, table, a) && !row_of(m_.theirs, table, b)) return;  // ours alone: no matter of this merge
    if (!listed_.insert(std::minmax(a, b)).second) return;
    const auto ours = newest_row_of(m_.ours, table, a), theirs = newest_row_of(m_.ours, table, b);
    if (!ours || !theirs) return;
    Conflict conflict = conflict_of(m_, Conflict::Kind::same_name, table, *ours, *theirs, nullptr);
    conflict.known = known;
    m_.report.conflicts.push_back(std::move(conflict));
  }
};

}  // namespace

NamesNow names_now(Database& database, const std::vector<TableInfo>& tables) {
  NamesNow names;
  for (const TableInfo& table : tables)
    if (has_name(table))
      database.each("SELECT thing, name FROM " + table.name + "_now",
                    [&](Statement& row) { names.by_table[table.name][row.text(0)] = compared(row.text(1)); });
  database.each(
      "SELECT s.thing, m.name, s.batch FROM spool_now AS s JOIN material_now AS m ON m.thing = s.material"
      " WHERE trim(s.batch) <> ''",
      [&](Statement& row) {
        names.by_table[batches][row.text(0)] = compared(row.text(1)) + "\n" + compared(row.text(2));
      });
  return names;
}

void list_equal_names(Merging& merging, const NamesNow& before) {
  const NamesNow after = names_now(merging.ours, merging.tables);
  NameLister lister(merging, before, after);
  for (const TableInfo& table : merging.tables) {
    lister.list(table, table.name);
    if (table.name == "spool") lister.list(table, batches);
  }
}

}  // namespace fitwright::record
