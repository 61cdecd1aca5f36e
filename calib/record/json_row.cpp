#include "record/json_row.hpp"

#include <algorithm>
#include <limits>

#include "base/number.hpp"
#include "base/text.hpp"

namespace fitwright::record {
namespace {

using Type = JsonValue::Type;

constexpr std::size_t id_digits = 32;

bool is_id(std::string_view text) {
  return text.size() == id_digits && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

/// Moments are compared as text, so they begin with the date: "2026-11-25...".
bool begins_with_date(std::string_view text) {
  constexpr std::string_view shape = "0000-00-00";
  if (text.size() < shape.size()) return false;
  for (std::size_t k = 0; k < shape.size(); ++k)
    if (shape[k] == '0' ? text[k] < '0' || text[k] > '9' : text[k] != shape[k]) return false;
  return true;
}

std::string needed(const ColumnInfo& column) {
  const std::string what = column.type == ColumnType::text   ? "text"
                           : column.type == ColumnType::real ? "a number"
                                                             : "a whole number";
  return column.required ? what : what + " or null";
}

class RowReader {
 public:
  RowReader(const JsonValue& item, const TableInfo& table, Defects& defects)
      : item_(item), table_(table), defects_(defects) {}

  std::optional<Row> read() {
    if (!item_.is(Type::object)) {
      tell(item_, "here is " + in_short(item_) + " where " + the_row() + " as an object is needed",
           "take the file as it was exported");
      return std::nullopt;
    }
    tell_unknown();
    tell_missing();
    Row row;
    for (const ColumnInfo& column : table_.columns) {
      const JsonValue* value = item_.find(column.name);
      row.push_back(value ? cell(*value, column) : Cell{});
    }
    if (good_ && std::holds_alternative<std::monostate>(row[column_amends]) != (row[column_thing] == row[column_id]))
      tell(item_,
           "the first row of a thing has its own id as \"thing\" and amends nothing, and this is neither that nor "
           "an amendment",
           "set \"amends\" to null in the first row, and to the row that is amended in the others");
    if (!good_) return std::nullopt;
    return row;
  }

 private:
  const JsonValue& item_;
  const TableInfo& table_;
  Defects& defects_;
  bool good_ = true;

  [[nodiscard]] std::string the_row() const { return "a row of " + quote(table_.name); }

  void tell(const JsonValue& where, std::string what, std::string remedy) {
    defects_.add(where.line, where.column, std::move(what), std::move(remedy));
    good_ = false;
  }

  void tell_unknown() {
    std::vector<std::string_view> known;
    for (const ColumnInfo& column : table_.columns) known.push_back(column.name);
    for (const auto& member : item_.members) {
      if (std::find(known.begin(), known.end(), member.name) != known.end()) continue;
      const std::string_view meant = nearest(member.name, known);
      defects_.add(member.line, member.column, quote(member.name) + " is no column of " + quote(table_.name),
                   meant.empty() ? "leave it out" : "write " + quote(meant) + " if that is meant");
      good_ = false;
    }
  }

  void tell_missing() {
    std::vector<std::string> missing;
    for (const ColumnInfo& column : table_.columns)
      if (!item_.find(column.name)) missing.push_back(quote(column.name));
    if (missing.empty()) return;
    const std::vector<std::string_view> words(missing.begin(), missing.end());
    std::string list = alternatives(words);
    if (const auto last = list.rfind(" or "); last != std::string::npos) list.replace(last, 4, " and ");
    tell(item_, "this " + table_.name + " lacks " + list, "give every column, null where there is nothing");
  }

  Cell cell(const JsonValue& value, const ColumnInfo& column) {
    if (value.is(Type::null) && !column.required) return {};
    if (column.type == ColumnType::text && value.is(Type::string)) return text(value, column);
    if (column.type == ColumnType::real) {
      if (value.is(Type::number)) return value.number;
      if (value.is(Type::string) && (value.string == "inf" || value.string == "-inf"))
        return (value.string[0] == '-' ? -1 : 1) * std::numeric_limits<double>::infinity();
    }
    if (column.type == ColumnType::integer && value.is(Type::number) && value.whole &&
        value.number >= std::numeric_limits<int>::min() && value.number <= std::numeric_limits<int>::max())
      return static_cast<long long>(value.number);
    tell(value, quote(column.name) + " is " + in_short(value) + " where " + needed(column) + " is needed",
         "see docs/formats.md for what its columns may hold");
    return {};
  }

  Cell text(const JsonValue& value, const ColumnInfo& column) {
    if ((column.name == "id" || !column.refers_to.empty()) && !is_id(value.string))
      tell(value, quote(column.name) + " is " + in_short(value) + ", which is no id",
           "an id has 32 digits of 0 to 9 and a to f");
    if (column.name == "at" && !begins_with_date(value.string))
      tell(value, "\"at\" is " + in_short(value) + ", which is no moment", "write it as 2026-11-25T19:04:05.123Z");
    return value.string;
  }
};

}  // namespace

std::optional<Row> row_from(const JsonValue& item, const TableInfo& table, Defects& defects) {
  return RowReader(item, table, defects).read();
}

std::string broken_rule(const DatabaseError& error, const Row& row, const TableInfo& table) {
  // The database names the rule by its words in our own schema.
  const std::string said = error.what();
  constexpr std::string_view before_rule = "CHECK constraint failed: ";
  const auto begin = said.find(before_rule);
  if (begin == std::string::npos) return "cannot be kept";
  const std::string rule = said.substr(begin + before_rule.size());
  for (std::size_t k = 0; k < table.columns.size(); ++k)
    if (rule.starts_with(table.columns[k].name + " ")) {
      std::string is = "null";
      if (const auto* text = std::get_if<std::string>(&row[k])) is = quote(*text);
      if (const auto* whole = std::get_if<long long>(&row[k])) is = std::to_string(*whole);
      if (const auto* number = std::get_if<double>(&row[k])) is = shortest(*number);
      return "has " + is + " as " + quote(table.columns[k].name) + ", which breaks the rule: " + rule;
    }
  return "breaks the rule: " + rule;
}

std::string in_short(const JsonValue& value) {
  if (value.is(Type::string)) return quote(value.string);
  if (value.is(Type::number)) return shortest(value.number);
  if (value.is(Type::boolean)) return value.boolean ? "true" : "false";
  return std::string(word(value.type));
}

}  // namespace fitwright::record
