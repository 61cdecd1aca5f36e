#include "record/integrity.hpp"

#include <map>
#include <unordered_map>
#include <unordered_set>

#include "base/json.hpp"
#include "base/text.hpp"
#include "record/look.hpp"
#include "record/pages.hpp"
#include "record/schema.hpp"
#include "record/wording.hpp"

namespace fitwright::record {
namespace {

constexpr std::size_t told_one_by_one = 10;

/// Faults as they are found, each kind's first ones in words.
class Faults {
 public:
  explicit Faults(std::string path) : path_(std::move(path)) {}
  void add(const std::string& kind, const std::string& what, const std::string& remedy) {
    if (++counts_[kind] <= told_one_by_one) problems_.push_back({Code::bad_input, {path_, 0, 0}, what, remedy});
  }
  [[nodiscard]] Problems all() const {
    Problems problems = problems_;
    for (const auto& [kind, count] : counts_)
      if (count > told_one_by_one)
        problems.push_back({Code::bad_input,
                            {path_, 0, 0},
                            std::to_string(count - told_one_by_one) + " more " + kind,
                            "put right the ones above first and check again"});
    return problems;
  }

 private:
  std::string path_;
  Problems problems_;
  std::map<std::string, std::size_t> counts_;
};

constexpr const char* keep_both = "keep a copy of the record as it is, and compare it with its newest good backup";

std::string row_name(const std::string& table, const std::string& id) { return table + ' ' + id; }

void pages(Database& db, Faults& faults, const std::string& path) {
  take_bad_page();
  long long found = 0;
  db.each("PRAGMA integrity_check", [&](Statement& row) { found += row.text(0) == "ok" ? 0 : 1; });
  const std::string way = way_back(path);
  if (const auto page = take_bad_page())
    faults.add("pages", "page " + std::to_string(*page) + " of the record does not hold what was written to it", way);
  else if (found > 0)
    faults.add("pages", "the order of the record's pages is broken in " + std::to_string(found) + " places", way);
}

struct Reference {
  std::string column, table;
};

std::vector<Reference> references_of(Database& db, const std::string& table) {
  std::vector<Reference> found;
  db.each(
      "SELECT \"from\", \"table\" FROM pragma_foreign_key_list(?) ORDER BY \"from\"",
      [&](Statement& row) {
        found.push_back({row.text(0), row.text(1)});
      },
      table);
  return found;
}

void references(Database& db, Faults& faults, const std::string& table) {
  for (const Reference& r : references_of(db, table)) {
    db.each("SELECT t.id, t." + r.column + " FROM " + table + " AS t LEFT JOIN " + r.table + " AS o ON o.id = t." +
                r.column + " WHERE t." + r.column + " IS NOT NULL AND o.id IS NULL ORDER BY t.id",
            [&](Statement& row) {
              faults.add(
                  "references to what is not there",
                  row_name(table, row.text(0)) + " refers to a " + r.table + " that is not there (" + row.text(1) + ")",
                  keep_both);
            });
    if (r.column == "amends") continue;
    db.each("SELECT t.id, o.id, o.thing FROM " + table + " AS t JOIN " + r.table + " AS o ON o.id = t." + r.column +
                " WHERE o.thing <> o.id ORDER BY t.id",
            [&](Statement& row) {
              faults.add("references to an amendment",
                         row_name(table, row.text(0)) + " refers to an amendment (" + row.text(1) +
                             ") instead of the " + r.table + " itself (" + row.text(2) + ")",
                         keep_both);
            });
  }
}

void chains(Database& db, Faults& faults, const std::string& table) {
  db.each("SELECT a.id, b.id FROM " + table + " AS a JOIN " + table +
              " AS b ON b.id = a.amends WHERE a.thing <> b.thing ORDER BY a.id",
          [&](Statement& row) {
            faults.add("amendments of another thing",
                       row_name(table, row.text(0)) + " amends a row of another " + table + " (" + row.text(1) + ")",
                       keep_both);
          });
  db.each("SELECT a.id, b.id FROM " + table + " AS a JOIN " + table +
              " AS b ON b.id = a.amends WHERE (a.at, a.id) <= (b.at, b.id) ORDER BY a.id",
          [&](Statement& row) {
            faults.add("amendments older than what they amend",
                       row_name(table, row.text(0)) + " amends a row that is newer than itself (" + row.text(1) +
                           "), so that the amendment does not count",
                       "amend it again");
          });
  // Every amendment leads back to a first row, unless amendments name each other in a circle. Walked here: SQLite has
  // no index from a row to its amendments.
  std::unordered_map<std::string, std::string> amended;
  std::vector<std::string> order;
  db.each("SELECT id, amends FROM " + table + " WHERE amends IS NOT NULL ORDER BY id", [&](Statement& row) {
    amended[row.text(0)] = row.text(1);
    order.push_back(row.text(0));
  });
  std::unordered_set<std::string> lead_back;
  for (const std::string& start : order) {
    std::unordered_set<std::string> walked;
    std::string at = start;
    while (amended.contains(at) && !lead_back.contains(at) && walked.insert(at).second) at = amended[at];
    if (walked.contains(at))
      faults.add("amendments in a circle",
                 row_name(table, start) + " amends a row that does not lead back to the first one", keep_both);
    else
      lead_back.merge(walked);
  }
}

void guards(Database& db, Faults& faults) {
  for (const std::string& table : thing_tables())
    for (const char* guard : {"_keeps", "_stays"})
      if (!db.number("SELECT 1 FROM sqlite_schema WHERE type = 'trigger' AND name = ? AND tbl_name = ?",
                     std::string_view(table + guard), std::string_view(table)))
        faults.add(
            "guards that are missing",
            "nothing keeps the rows of \"" + table + "\" from being changed: \"" + table + guard + "\" is missing",
            "another program changed the record: " + std::string(keep_both));
}

struct JsonColumn {
  const char *table, *column;
  JsonValue::Type type;
  bool may_be_empty;
};

// The JSON columns of things.hpp.
constexpr JsonColumn json_columns[] = {
    {"printer", "drive", JsonValue::Type::object, true},
    {"setup", "state", JsonValue::Type::object, true},
    {"coupon", "parameters", JsonValue::Type::object, true},
    {"copy", "state", JsonValue::Type::object, true},
    {"estimate", "copies", JsonValue::Type::array, true},
    {"estimate", "state", JsonValue::Type::object, true},
    {"estimate", "options", JsonValue::Type::object, true},
    {"estimate", "result", JsonValue::Type::object, false},
    {"correction", "before", JsonValue::Type::object, false},
    {"correction", "after", JsonValue::Type::object, false},
    {"correction", "detail", JsonValue::Type::object, true},
    {"correction_event", "detail", JsonValue::Type::object, true},
};

void json(Database& db, Faults& faults) {
  for (const JsonColumn& c : json_columns) {
    const std::string column = c.column, table = c.table;
    db.each("SELECT id, " + column + " FROM " + table + " ORDER BY id", [&](Statement& row) {
      const std::string text = row.text(1);
      if (text.empty() && c.may_be_empty) return;
      const auto value = parse_json(text, column);
      const std::string where = "\"" + column + "\" of " + row_name(table, row.text(0));
      if (!value)
        faults.add("texts that are no JSON", where + " is not JSON: " + quote(text), keep_both);
      else if (!value->is(c.type))
        faults.add("texts that are another JSON",
                   where + " is " + std::string(word(value->type)) + ", not " + std::string(word(c.type)), keep_both);
    });
  }
}

void remarks(Database& db, Faults& faults) {
  std::string any;
  for (const std::string& table : thing_tables())
    any += (any.empty() ? "SELECT id FROM " : " UNION ALL SELECT id FROM ") + table + " WHERE amends IS NULL";
  db.each("SELECT id, about FROM remark WHERE about NOT IN (" + any + ") ORDER BY id", [&](Statement& row) {
    faults.add("remarks about what is not there",
               row_name("remark", row.text(0)) + " is about what is not there (" + row.text(1) + ")", keep_both);
  });
}

}  // namespace

Problems check_record(Record& record) {
  Database& db = record.database();
  Faults faults(record.path());
  try {
    pages(db, faults, record.path());
    if (!faults.all().empty()) return faults.all();  // what the rows say is not to be trusted then
    guards(db, faults);
    for (const std::string& table : thing_tables()) {
      references(db, faults, table);
      chains(db, faults, table);
    }
    remarks(db, faults);
    json(db, faults);
  } catch (const DatabaseError& error) {
    Problems problems = faults.all();
    problems.push_back(problem_of(error, record.path()));
    return problems;
  }
  return faults.all();
}

}  // namespace fitwright::record
