// What is wrong with a JSON file is told by line and column, all of it, and nothing of it is taken.

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "base/file.hpp"
#include "calib/record/random_record.hpp"
#include "record/exchange.hpp"
#include "record/store.hpp"

using namespace fitwright;
using namespace fitwright::record;
using namespace fitwright_test;

namespace {

const std::string id_a(32, 'a'), id_b(32, 'b'), id_c(32, 'c');

/// What is told of a document, a line a problem; empty when it is taken. The record stays empty then.
std::string told(const std::string& json) {
  Record record = record_in_memory();
  const std::string before = exported(record);
  const auto report = import_json_text(record, json, "f.json");
  if (report.ok()) return {};
  CHECK(exported(record) == before);
  std::string text;
  for (const Problem& problem : report.problems()) text += problem.text() + "\n";
  return text;
}

std::string document(const std::string& things) {
  return "{\"fitwright_record\":1,\"schema\":1,\"things\":{" + things + "}}";
}

std::string material(const std::string& id,
                     const std::string& rest = "\"name\":\"PLA\",\"density_g_cm3\":1.24,\"note\":\"\"") {
  return "{\"id\":\"" + id + "\",\"thing\":\"" + id +
         "\",\"amends\":null,\"at\":\"2026-11-25T10:00:00.000Z\",\"why\":\"\",\"gone\":0," + rest + "}";
}

std::string amendment(const std::string& id, const std::string& thing, const std::string& amends,
                      const std::string& at) {
  return "{\"id\":\"" + id + "\",\"thing\":\"" + thing + "\",\"amends\":\"" + amends + "\",\"at\":\"" + at +
         "\",\"why\":\"\",\"gone\":0,\"name\":\"PLA\",\"density_g_cm3\":1.25,\"note\":\"\"}";
}

}  // namespace

TEST_CASE("a small document written by hand is taken") {
  CHECK(told(document("\"material\":[" + material(id_a) + "]")).empty());
  CHECK(told(document("")).empty());
  CHECK(told(document("\"material\":[" + amendment(id_b, id_a, id_a, "2026-11-26") + "," + material(id_a) + "]"))
            .empty());
}

TEST_CASE("what is no export is told in one sentence") {
  CHECK(told("") == "f.json:1:1: the JSON text ends too early; close every bracket and quote that was opened\n");
  CHECK(told("[1,2]") ==
        "f.json:1:1: the file holds a list where an object is needed; check that it is a record written by fitw record "
        "export\n");
  CHECK(told("{\"schema\": 1}") ==
        "f.json:1:1: there is no \"fitwright_record\"; check that it is a record written by fitw record export\n");
  CHECK(told("{\"fitwright_record\":1,\"schema\":1}") ==
        "f.json:1:1: there is no \"things\"; take the file as it was exported\n");
  CHECK(told("{\"fitwright_record\":\"1\",\"schema\":1,\"things\":{}}") ==
        "f.json:1:21: \"fitwright_record\" is \"1\" where a whole number from 1 is needed; take the file as it was "
        "exported\n");
}

TEST_CASE("a newer version is refused politely, whatever else it holds") {
  const std::string newer = told("{\"fitwright_record\":1,\"schema\":2,\"things\":{\"oven\":[{\"id\":5}]},\"more\":1}");
  CHECK(
      newer ==
      "f.json:1:32: \"schema\" is 2: this file was written by a newer version of the program, and this one knows up to "
      "1; read it with the newer version, or export it there again for this one\n");
}

TEST_CASE("every defect is told at once, with its place") {
  const std::string text = told("{\"fitwright_record\":1,\"schema\":1,\n\"things\":{\n\"material\":[\n" +
                                material(id_a, "\"name\":5,\"density_g_cm3\":\"1,24\",\"note\":null") + ",\n" +
                                material(id_b, "\"name\":\"PLA\",\"densty_g_cm3\":1.2,\"note\":\"\"") + ",\n17,\n" +
                                material("A0", "\"name\":\"x\",\"density_g_cm3\":1,\"note\":\"\"") + "\n]}}");
  CHECK(text ==
        "f.json:4:156: \"name\" is 5 where text is needed; see docs/formats.md for what its columns may hold\n"
        "f.json:4:174: \"density_g_cm3\" is \"1,24\" where a number is needed; see docs/formats.md for what its "
        "columns may "
        "hold\n"
        "f.json:4:188: \"note\" is null where text is needed; see docs/formats.md for what its columns may hold\n"
        "f.json:5:1: this material lacks \"density_g_cm3\"; give every column, null where there is nothing\n"
        "f.json:5:162: \"densty_g_cm3\" is no column of \"material\"; write \"density_g_cm3\" if that is meant\n"
        "f.json:6:1: here is 17 where a row of \"material\" as an object is needed; take the file as it was exported\n"
        "f.json:7:7: \"id\" is \"A0\", which is no id; an id has 32 digits of 0 to 9 and a to f\n"
        "f.json:7:20: \"thing\" is \"A0\", which is no id; an id has 32 digits of 0 to 9 and a to f\n");
}

TEST_CASE("tables that are not known, or are no lists") {
  CHECK(told(document("\"materials\":[],\"printer\":{},\"oven\":[]")) ==
        "f.json:1:44: \"materials\" is no kind of thing that the record keeps; write \"material\" if that is meant\n"
        "f.json:1:69: \"printer\" is an object where a list of rows is needed; take the file as it was exported\n"
        "f.json:1:72: \"oven\" is no kind of thing that the record keeps; leave it out\n");
  CHECK(told("{\"fitwright_record\":1,\"schema\":1,\"things\":[]}")
            .find("\"things\" is a list where an object is needed") != std::string::npos);
}

TEST_CASE("rules of the tables") {
  const std::string travel = "{\"id\":\"" + id_b + "\",\"thing\":\"" + id_b +
                             "\",\"amends\":null,\"at\":\"2026-11-25\",\"why\":\"\",\"gone\":0,\"printer\":\"" + id_a +
                             "\",\"axis\":\"q\",\"commanded_mm\":100,\"travelled_mm\":100,\"u_mm\":null}";
  CHECK(told(document("\"travel\":[" + travel + "]")) ==
        "f.json:1:54: this travel has \"q\" as \"axis\", which breaks the rule: axis IN ('x','y','z'); see "
        "docs/formats.md "
        "for what its columns may hold\n");
  std::string gone = material(id_a);
  gone.replace(gone.find("\"gone\":0"), 8, "\"gone\":2");
  CHECK(told(document("\"material\":[" + gone + "]")).find("has 2 as \"gone\", which breaks the rule: gone IN (0,1)") !=
        std::string::npos);
  gone.replace(gone.find("\"gone\":2"), 8, "\"gone\":0.5");
  CHECK(told(document("\"material\":[" + gone + "]")).find("\"gone\" is 0.5 where a whole number is needed") !=
        std::string::npos);
  gone.replace(gone.find("\"gone\":0.5"), 10, "\"gone\":1e99");
  CHECK(told(document("\"material\":[" + gone + "]")).find("\"gone\" is 1e+99 where a whole number is needed") !=
        std::string::npos);
  std::string when = material(id_a);
  when.replace(when.find("2026-11-25"), 10, "25.11.2026");
  CHECK(
      told(document("\"material\":[" + when + "]")).find("which is no moment; write it as 2026-11-25T19:04:05.123Z") !=
      std::string::npos);
}

TEST_CASE("one id twice, and references to what is not there") {
  CHECK(told(document("\"material\":[\n" + material(id_a) + ",\n" + material(id_a) + "]")) ==
        "f.json:3:1: this material has the id " + id_a + " of the one in line 2; keep one of the two\n");
  const std::string spool =
      "{\"id\":\"" + id_b + "\",\"thing\":\"" + id_b +
      "\",\"amends\":null,\"at\":\"2026-11-25\",\"why\":\"\",\"gone\":0,\"material\":\"" + id_c +
      "\",\"name\":\"s\",\"colour\":\"\",\"batch\":\"\",\"price_per_kg\":null,\"currency\":\"\",\"note\":\"\"}";
  CHECK(told(document("\"spool\":[\n" + spool + "]")) ==
        "f.json:2:1: the spool " + id_b + " refers to the material \"" + id_c +
            "\", which is in neither record; take the file as it was exported, or give both records together\n");
}

TEST_CASE("amendments that cannot be") {
  const auto of = [](const std::string& row) {
    return told(document("\"material\":[" + material(id_a) + ",\n" + row + "]"));
  };
  CHECK(of(amendment(id_b, id_a, id_c, "2026-11-26")).find("f.json:2:1: the material " + id_b + " amends the row") ==
        0);
  CHECK(of(amendment(id_b, id_c, id_a, "2026-11-26")).find("amends the thing \"" + id_c + "\"") != std::string::npos);
  CHECK(of(amendment(id_b, id_a, id_a, "2026-11-25T10:00:00.000Z")).find("is not later than the row it amends") !=
        std::string::npos);
  CHECK(of(amendment(id_b, id_a, id_b, "2026-11-26")).find("is not later than the row it amends") != std::string::npos);
  CHECK(of(material(id_c) + "," + amendment(id_b, id_a, id_c, "2026-11-26")).find("amends a row of another thing") !=
        std::string::npos);
  std::string neither = material(id_b);
  neither.replace(neither.find("\"thing\":\"" + id_b), 41, "\"thing\":\"" + id_a);
  CHECK(of(neither).find("this is neither that nor an amendment") != std::string::npos);
}

TEST_CASE("a part of a record goes where the rest is") {
  Record record = record_in_memory();
  REQUIRE(import_json_text(record, document("\"material\":[" + material(id_a) + "]"), "a.json").ok());
  const auto later =
      import_json_text(record, document("\"material\":[" + amendment(id_b, id_a, id_a, "2026-11-26") + "]"), "b.json");
  REQUIRE(later.ok());
  CHECK(later->added == 1);
  CHECK(one<Material>(record, Id{id_a})->value.density_g_cm3 == 1.25);
}

TEST_CASE("hostile texts: a clear message each, in bounded memory") {
  const std::string deep = document("\"material\":[" + std::string(5'000'000, '['));
  CHECK(told(deep).find("brackets are nested too deep") != std::string::npos);
  for (const char* word : {"NaN", "Infinity", "-Infinity", "nan", "1e999", "01", "0x10", "'a'", "undefined"}) {
    INFO(word);
    CHECK(
        told(document("\"material\":[" +
                      material(id_a, "\"name\":\"P\",\"density_g_cm3\":" + std::string(word) + ",\"note\":\"\"") + "]"))
            .find("this is not valid JSON from here on") != std::string::npos);
  }
  CHECK(told(document("\"material\":[" +
                      material(id_a, "\"name\":\"a\",\"name\":\"b\",\"density_g_cm3\":1,\"note\":\"\"") + "]"))
            .find("\"name\" is given twice") != std::string::npos);
  CHECK(told(document("\"material\":[],\"material\":[]")).find("\"material\" is given twice") != std::string::npos);

  const std::string long_text(10'000'000, 'x');
  CHECK(told(document("\"material\":[" +
                      material(id_a, "\"name\":\"" + long_text + "\",\"density_g_cm3\":1,\"note\":\"\"") + "]"))
            .empty());
  const std::string quoted = told(document(
      "\"material\":[" + material(id_a, "\"name\":\"\",\"density_g_cm3\":\"" + long_text + "\",\"note\":\"\"") + "]"));
  CHECK(quoted.size() < 300);
  CHECK(told(document("\"" + long_text + "\":[]")).size() < 300);
  CHECK(told(document("\"material\":[" + material(long_text) + "]")).size() < 500);

  std::string zeros = "0";
  for (int k = 0; k < 300'000; ++k) zeros += ",0";
  const std::string many = told(document("\"material\":[" + zeros + "]"));
  CHECK(std::count(many.begin(), many.end(), '\n') == 101);
  CHECK(many.find("there are 299901 more defects that are not listed") != std::string::npos);
  CHECK(told(document("\"material\":[[" + zeros + "]]")).find("there are more values here than belong together") !=
        std::string::npos);
  CHECK(told("[" + zeros + "]").find("there are more values here than belong together") != std::string::npos);
  // Bytes that are no UTF-8, and half of a pair of surrogates.
  CHECK(told(document("\"material\":[" + material(id_a, "\"name\":\"\xff\",\"density_g_cm3\":1,\"note\":\"\"") + "]"))
            .find("not valid JSON") != std::string::npos);
  CHECK(
      told(document("\"material\":[" + material(id_a, "\"name\":\"\\ud800\",\"density_g_cm3\":1,\"note\":\"\"") + "]"))
          .find("not valid JSON") != std::string::npos);
}

TEST_CASE("a truncated or altered document is told, never half taken: 300 of them") {
  Record record = random_record(7, 40);
  const std::string whole = exported(record);
  std::mt19937_64 random(11);
  int refused = 0;
  for (int k = 0; k < 300; ++k) {
    std::string text = whole;
    if (k % 2)
      text.resize(random() % whole.size());
    else
      for (int n = 0; n < 3; ++n) text[random() % text.size()] = "0a\"{}[],:\x01 \\"[random() % 12];
    Record into = record_in_memory();
    const std::string empty = exported(into);
    const auto report = import_json_text(into, text, "f.json");
    if (report.ok()) continue;  // the change lay within a text or number
    ++refused;
    REQUIRE(exported(into) == empty);
    for (const Problem& problem : report.problems()) {
      REQUIRE(problem.where.line > 0);
      REQUIRE_FALSE(problem.remedy.empty());
      REQUIRE(problem.text().find("nlohmann") == std::string::npos);
      REQUIRE(problem.text().find("SQL") == std::string::npos);
    }
  }
  CHECK(refused > 200);
}
