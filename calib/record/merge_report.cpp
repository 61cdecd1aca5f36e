#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "base/words.hpp"
#include "record/exchange.hpp"

namespace fitwright::record {
namespace {

using Json = nlohmann::ordered_json;

constexpr int report_schema = 1;
constexpr std::size_t longest_value = 60;  // characters of a value in the text
constexpr std::size_t most_in_text = 100;  // conflicts

/// "1 row", "2 rows".
std::string in_words(std::string table) {
  std::replace(table.begin(), table.end(), '_', ' ');
  return table;
}

std::string value(const std::string& text) { return text.empty() ? "nothing" : quote(text, longest_value); }

std::string side(const std::string& whose, const ConflictSide& side) {
  return "     " + whose + ": " + side.at + (side.ended ? ", ended" : "") +
         (side.why.empty() ? "" : ", because " + quote(side.why, longest_value)) + " (row " + side.row.text + ")\n";
}

std::string headline(const Conflict& c) {
  const std::string what = in_words(c.table) + (c.name.empty() ? "" : " " + quote(c.name));
  switch (c.kind) {
    case Conflict::Kind::changed_row:
      return what + ": one id, two contents; a fact was changed by hand. Ours is kept";
    case Conflict::Kind::two_amendments:
      return what + ": amended on both benches. Both are kept; " + (c.theirs_holds ? "theirs" : "ours") +
             " is the newer and holds";
    case Conflict::Kind::same_name:
      return what + ": two things of one name. Both are kept, and not joined";
  }
  return what;
}

std::string advice(const Conflict& c) {
  switch (c.kind) {
    case Conflict::Kind::changed_row:
      return "find out which is right; if theirs, amend ours";
    case Conflict::Kind::two_amendments:
      return "look at both; if the one that holds lacks something, amend it";
    case Conflict::Kind::same_name:
      return "if they are two, amend the name of one; if they are one, go on with one and end the other (what was "
             "measured under it stays)";
  }
  return {};
}

std::string in_full(const Conflict& c, std::size_t number) {
  std::string text = "  " + std::to_string(number) + ". " + headline(c) + ".\n";
  text += side("ours", c.ours) + side("theirs", c.theirs);
  for (const FieldDifference& field : c.fields)
    text += "     " + field.field + ": ours " + value(field.ours) + ", theirs " + value(field.theirs) +
            (c.kind == Conflict::Kind::two_amendments ? ", before " + value(field.before) : "") + "\n";
  if (c.fields.empty()) text += "     They say the same.\n";
  return text + "     To do: " + advice(c) + ".\n";
}

Json side_json(const ConflictSide& side) {
  return {
      {"row", side.row.text}, {"thing", side.thing.text}, {"at", side.at}, {"why", side.why}, {"ended", side.ended}};
}

Json conflict_json(const Conflict& c) {
  Json fields = Json::array();
  for (const FieldDifference& field : c.fields) {
    Json one{{"field", field.field}};
    if (c.kind == Conflict::Kind::two_amendments) one["before"] = field.before;
    one["ours"] = field.ours;
    one["theirs"] = field.theirs;
    fields.push_back(std::move(one));
  }
  Json out{{"kind", word(c.kind)}, {"known", c.known},          {"table", c.table},
           {"name", c.name},       {"ours", side_json(c.ours)}, {"theirs", side_json(c.theirs)}};
  if (c.kind == Conflict::Kind::two_amendments) out["holds"] = c.theirs_holds ? "theirs" : "ours";
  out["fields"] = std::move(fields);
  out["do"] = advice(c);
  return out;
}

}  // namespace

std::string merge_text(const MergeReport& report) {
  std::string text = report.source + ": " + said_many("{} row", "{} rows", report.added) +
                     (report.dry_run ? " would be added, " : " added, ") + std::to_string(report.present) +
                     (report.present == 1 ? " was" : " were") + " there already.\n";
  for (const TableMerged& table : report.tables)
    if (table.added > 0) text += "  " + in_words(table.table) + ": " + std::to_string(table.added) + " new\n";
  if (report.agreed > 0)
    text += said_many("{} thing was", "{} things were", report.agreed) + " amended in the same way on both benches.\n";
  const std::size_t fresh = report.new_conflicts(), known = report.conflicts.size() - fresh;
  text += fresh == 0 ? "No new conflicts.\n" : said_many("{} conflict", "{} conflicts", fresh) + " to decide:\n";
  for (std::size_t k = 0; k < std::min(fresh, most_in_text); ++k) text += in_full(report.conflicts[k], k + 1);
  if (fresh > most_in_text) text += "  " + std::to_string(fresh - most_in_text) + " more are in the JSON report.\n";
  if (known > 0) text += said_many("{} conflict was", "{} conflicts were", known) + " known before this merge.\n";
  if (report.dry_run) text += "Nothing was written.\n";
  return text;
}

std::string merge_json(const MergeReport& report) {
  Json tables = Json::array(), conflicts = Json::array();
  for (const TableMerged& table : report.tables)
    tables.push_back({{"table", table.table}, {"added", table.added}, {"present", table.present}});
  for (const Conflict& conflict : report.conflicts) conflicts.push_back(conflict_json(conflict));
  const Json document{{"schema", report_schema},          {"source", report.source},
                      {"dry_run", report.dry_run},        {"added", report.added},
                      {"present", report.present},        {"agreed", report.agreed},
                      {"tables", std::move(tables)},      {"new_conflicts", report.new_conflicts()},
                      {"conflicts", std::move(conflicts)}};
  return document.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace fitwright::record
