// docs/record.schema.json says of every table what the database says, and of types what export writes.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "calib/record/random_record.hpp"
#include "record/exchange.hpp"
#include "record/rows.hpp"
#include "record/schema.hpp"

using namespace fitwright;
using namespace fitwright::record;
using namespace fitwright_test;

namespace {

using Json = nlohmann::ordered_json;

const Json& schema() {
  static const Json parsed = Json::parse(*read_whole(FW_SOURCE "/docs/record.schema.json"));
  return parsed;
}

/// Whether a part of the schema takes a value: only the keywords that the file uses.
bool takes(const Json& part, const Json& value) {
  static const auto is = [](const std::string& type, const Json& v) {
    return type == "string"    ? v.is_string()
           : type == "number"  ? v.is_number()
           : type == "integer" ? v.is_number_integer()
           : type == "object"  ? v.is_object()
           : type == "array"   ? v.is_array()
                               : type == "null" && v.is_null();
  };
  if (part.contains("$ref")) {
    const std::string name = part["$ref"].get<std::string>().substr(std::string("#/$defs/").size());
    return takes(schema()["$defs"].at(name), value);
  }
  if (part.contains("anyOf"))
    return std::any_of(part["anyOf"].begin(), part["anyOf"].end(), [&](const Json& p) { return takes(p, value); });
  if (part.contains("enum")) return std::count(part["enum"].begin(), part["enum"].end(), value) > 0;
  if (part.contains("const")) return part["const"] == value;
  if (part.contains("minimum") && value.is_number() && value < part["minimum"]) return false;
  if (part.contains("maximum") && value.is_number() && value > part["maximum"]) return false;
  const Json types = part["type"].is_array() ? part["type"] : Json::array({part["type"]});
  return std::any_of(types.begin(), types.end(), [&](const Json& t) { return is(t.get<std::string>(), value); });
}

}  // namespace

TEST_CASE("the published schema names the tables and columns of the database, in their order") {
  Record record = record_in_memory();
  CHECK(schema()["properties"]["schema"]["const"] == schema_version);
  CHECK(schema()["properties"]["fitwright_record"]["const"] == export_format);
  std::vector<std::string> tables;
  for (const auto& [name, list] : schema()["properties"]["things"]["properties"].items()) tables.push_back(name);
  CHECK(tables == thing_tables());
  for (const std::string& table : thing_tables()) {
    INFO(table);
    const Json& part = schema()["$defs"].at(table);
    std::vector<std::string> columns;
    for (const auto& [name, type] : part["properties"].items()) columns.push_back(name);
    CHECK(columns == columns_of(record.database(), table));
    CHECK(part["required"].get<std::vector<std::string>>() == columns);
    CHECK(part["additionalProperties"] == false);
    for (const ColumnInfo& column : describe(record.database(), table).columns) {
      INFO(column.name);
      CHECK(takes(part["properties"][column.name], nullptr) == !column.required);
    }
  }
}

TEST_CASE("the published schema takes what is exported, 20 random records") {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    Record record = random_record(seed);
    const Json document = Json::parse(exported(record));
    for (const auto& [table, rows] : document["things"].items())
      for (const Json& row : rows)
        for (const auto& [column, value] : row.items()) {
          INFO("seed " << seed << " " << table << "." << column << " " << value.dump());
          REQUIRE(takes(schema()["$defs"].at(table)["properties"].at(column), value));
        }
  }
}
