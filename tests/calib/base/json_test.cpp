#include "base/json.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <string>
#include <vector>

using namespace fitwright;

namespace {

using Type = JsonValue::Type;

JsonValue read(const std::string& text) {
  auto value = parse_json(text, "a.json");
  if (!value) FAIL(value.problems().front().text());
  return *value;
}

std::string message(const std::string& text) {
  const auto value = parse_json(text, "a.json");
  return value ? "" : value.problems().front().text();
}

const std::string invalid =
    "this is not valid JSON from here on; look for a missing comma, quote or bracket, or a number that is too large";
const std::string too_early = "the JSON text ends too early; close every bracket and quote that was opened";

}  // namespace

TEST_CASE("Values know what they are and where they stood") {
  const JsonValue v =
      read("{\"a\": [1, -2.5e1, \"x\\\"y\\u00e4\"],\n  \"größe\" : {\"n\": null, \"t\": true, \"f\": false} }");
  REQUIRE(v.is(Type::object));
  REQUIRE(v.members.size() == 2);
  const JsonValue& list = *v.find("a");
  REQUIRE(list.items.size() == 3);
  CHECK((list.line == 1 && list.column == 7));
  CHECK(list.items[0].number == 1);
  CHECK(list.items[0].whole);
  CHECK(list.items[1].number == -25);
  CHECK_FALSE(list.items[1].whole);
  CHECK(list.items[1].column == 11);
  CHECK(list.items[2].string == "x\"yä");
  CHECK(list.items[2].column == 19);
  CHECK((v.members[1].line == 2 && v.members[1].column == 3));
  const JsonValue& inner = *v.find("größe");
  CHECK((inner.line == 2 && inner.column == 13));
  CHECK(inner.find("n")->is(Type::null));
  CHECK(inner.find("t")->boolean);
  CHECK_FALSE(inner.find("f")->boolean);
  CHECK((inner.find("f")->line == 2 && inner.find("f")->column == 41));
  CHECK(inner.find("absent") == nullptr);
}

TEST_CASE("A document may be any one value, with a byte order mark and blanks around it") {
  CHECK(read(" 7 ").number == 7);
  CHECK(read("\xEF\xBB\xBF\"x\"").column == 1);
  CHECK(read("[]").items.empty());
  CHECK(read("\r\n\t{}").line == 2);
}

TEST_CASE("What is not JSON is told by its first place") {
  CHECK(message("") == "a.json:1:1: " + too_early);
  CHECK(message("{\"a\": 1") == "a.json:1:8: " + too_early);
  CHECK(message("{\"a\": 1,}") == "a.json:1:9: " + invalid);
  CHECK(message("{\"a\" 1}") == "a.json:1:6: " + invalid);
  CHECK(message("[1] 2") == "a.json:1:5: " + invalid);
  CHECK(message("[NaN]") == "a.json:1:2: " + invalid);
  CHECK(message("{\"ä\": 1,\n x}") == "a.json:2:2: " + invalid);
  CHECK(message("[1e999]") != "");
  CHECK(message("[\"\xFF\"]") != "");
}

TEST_CASE("A name given twice is told, and every one of them") {
  const auto value = parse_json("{\"a\": 1,\n\"a\": 2, \"b\": {\"c\": 1, \"c\": 2}}", "a.json");
  REQUIRE_FALSE(value.ok());
  REQUIRE(value.problems().size() == 2);
  CHECK(value.problems()[0].text() == "a.json:2:1: \"a\" is given twice; keep one of the two");
  CHECK(value.problems()[1].text() == "a.json:2:23: \"c\" is given twice; keep one of the two");
}

TEST_CASE("Nesting has an end") {
  CHECK(read(std::string(100, '[') + std::string(100, ']')).is(Type::array));
  CHECK(message(std::string(100000, '[')) ==
        "a.json:1:101: brackets are nested too deep; check that it is the file you meant");
}

TEST_CASE("Damaged JSON is told or read, never worse") {
  const std::string valid = R"({"a": [1, 2.5, {"b": "x\n\u00e4", "c": null}], "d": {"e": true, "f": -1e-3}})";
  std::mt19937 random(11);
  for (int i = 0; i < 20000; ++i) {
    std::string text = valid;
    for (auto k = random() % 3; k < 3; ++k) {
      const std::size_t at = random() % text.size();
      if (random() % 2)
        text[at] = static_cast<char>(random());
      else
        text.erase(at, 1);
    }
    const auto value = parse_json(text, "a.json");
    if (!value && (value.problems().empty() || value.problems()[0].where.line < 1)) FAIL(text);
  }
}

TEST_CASE("Items of long lists are handed over one by one, with the names around them, and are not kept") {
  std::vector<std::string> seen;
  JsonItems items{3,
                  [&](const std::vector<std::string>& names, JsonValue&& item) {
                    seen.push_back(names[0] + "/" + names[1] + ":" + std::to_string(item.line) + ":" +
                                   std::string(word(item.type)));
                  },
                  10000};
  const auto rest =
      parse_json("{\"v\": 1, \"t\": {\"a\": [1,\n{\"x\": [2, 3]}], \"b\": [\n\n[4]], \"c\": 5}}", "a.json", items);
  REQUIRE(rest.ok());
  CHECK(seen == std::vector<std::string>{"t/a:1:a number", "t/a:2:an object", "t/b:4:a list"});
  CHECK(rest->find("v")->number == 1);
  CHECK(rest->find("t")->find("a")->items.empty());
  CHECK(rest->find("t")->find("c")->number == 5);
}

TEST_CASE("What is kept at one time is limited when items are handed over") {
  JsonItems items{1, [](const auto&, JsonValue&&) {}, 50};
  std::string many = "[";
  for (int k = 0; k < 500; ++k) many += "0,";
  CHECK(parse_json(many + "0]", "a.json", items).ok());
  const auto wide = parse_json("[[" + many.substr(1) + "0]]", "a.json", items);
  REQUIRE_FALSE(wide.ok());
  CHECK(wide.problems().size() == 1);
  CHECK(wide.problems()[0].text() ==
        "a.json:1:103: there are more values here than belong together; check that it is the file you meant");
}

TEST_CASE("A name given twice is told at any width, and a million of them neither take long nor fill the screen") {
  std::string text = "{";
  for (int k = 0; k < 200000; ++k) text += "\"" + std::to_string(k % 100000) + "\":0,";
  const auto value = parse_json(text + "\"x\":0}", "a.json");
  REQUIRE_FALSE(value.ok());
  CHECK(value.problems().size() == 100);
  CHECK(value.problems()[0].what == "\"0\" is given twice");
}

TEST_CASE("Minus zero stays minus zero") {
  for (const char* zero : {"-0", "-0.0", "-0e3"}) {
    INFO(zero);
    CHECK(std::signbit(read(zero).number));
  }
  CHECK_FALSE(std::signbit(read("0").number));
}

TEST_CASE("Any text comes back from its JSON string; what is not UTF-8 is replaced") {
  for (const std::string& text : {std::string("a\"\\/\b\f\n\r\t"), std::string("\0\x1f\x7f", 3), std::string("ä€𝄞")})
    CHECK(read(json_string(text)).string == text);
  CHECK(json_string("a\xff") == "\"a\xEF\xBF\xBD\"");
}
