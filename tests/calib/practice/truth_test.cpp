// Truths from JSON: what is taken, and each defect by line, column and text.
#include <catch2/catch.hpp>
#include <string>

#include "practice/simulate.hpp"

using namespace fitwright;

namespace {

std::string messages(const std::string& json) {
  const auto truth = parse_truth(json, "t.json");
  if (truth) return "";
  std::string out;
  for (const Problem& p : truth.problems()) {
    CHECK(p.code == Code::bad_input);
    out += p.text() + "\n";
  }
  return out;
}

struct Case {
  std::string json, expected;
};

}  // namespace

TEST_CASE("An empty truth, and the word default, are the default truth") {
  const std::string csv = simulate_csv(default_truth(), 3);
  for (const char* text : {"default", " default\n", "{}", "\xEF\xBB\xBF{}", "{ }\r\n"}) {
    const auto truth = parse_truth(text, "t.json");
    REQUIRE(truth.ok());
    CHECK(simulate_csv(*truth, 3) == csv);
  }
}

TEST_CASE("A truth is merged over the default, key by key") {
  const auto truth = parse_truth(R"({"scale":{"x":0.01},"hole":{"c0":0.2},"wall":{"w":0.5},"layer":0.3,
    "machine":null,"shrink":null,"peg":null,"turned":null,"copies":2})",
                                 "t.json");
  REQUIRE(truth.ok());
  CHECK(truth->scale.x == 0.01);
  CHECK(truth->scale.y == default_truth().scale.y);
  CHECK(truth->hole_c0_mm == 0.2);
  CHECK(truth->hole_c1_mm2 == default_truth().hole_c1_mm2);
  CHECK(truth->layer_mm == 0.3);
  CHECK(truth->copies == 2);
  CHECK(truth->turned_deg.empty());
}

TEST_CASE("Each defect of a truth is told with its place and a remedy") {
  const Case cases[] = {
      {"", "t.json:1:1: the JSON text ends too early; close every bracket and quote that was opened\n"},
      {"{\"e\": 1", "t.json:1:8: the JSON text ends too early; close every bracket and quote that was opened\n"},
      {"{\"e\": 1,\n \"z0\" 2}",
       "t.json:2:7: this is not valid JSON from here on; look for a missing comma, quote or bracket, or a number that "
       "is too large\n"},
      {"[1]", "t.json:1:1: a truth must be an object, this is a list; begin it with {\n"},
      {"{\"scal\": {}}", "t.json:1:2: \"scal\" is not a key that belongs here; did you mean \"scale\"?\n"},
      {"{\n  \"hole\": {\"c2\": 1}}", "t.json:2:12: \"c2\" is not a key that belongs here; did you mean \"c0\"?\n"},
      {"{\"typo\": {\"remark\": 1}}",
       "t.json:1:11: \"remark\" is not a key that belongs here; use rate, or take it out\n"},
      {"{\"e\": \"wide\"}", "t.json:1:7: \"e\" is text; give a number from -100 to 100 mm\n"},
      {"{\"e\": true}", "t.json:1:7: \"e\" is true or false; give a number from -100 to 100 mm\n"},
      {"{\"e\": 1000}", "t.json:1:7: \"e\" is 1000 mm; give a number from -100 to 100 mm\n"},
      {"{\"e\": 0.1, \"e\": 0.2}", "t.json:1:12: \"e\" is given twice; keep one of the two\n"},
      {"{\"scale\": 1}", "t.json:1:11: \"scale\" is a number; give an object { ... }\n"},
      {"{\"scale\": null}", "t.json:1:11: \"scale\" is null; give an object { ... }\n"},
      {"{\"noise\": {\"reading\": -0.01}}", "t.json:1:23: \"reading\" is -0.01 mm; give a number from 0 to 10 mm\n"},
      {"{\"typo\": {\"rate\": 2}}", "t.json:1:19: \"rate\" is 2; give a number from 0 to 1\n"},
      {"{\"copies\": 2.5}", "t.json:1:12: \"copies\" is not a whole number; give one from 1 to 1e+06\n"},
      {"{\"copies\": 0}", "t.json:1:12: \"copies\" is 0; give a number from 1 to 1e+06\n"},
      {"{\"copies\": 1000000, \"repeats\": 1000000}",
       "t.json:1:1: this asks for 34000000000000 readings; ask for fewer copies or repeats: at most 10000000 "
       "readings\n"},
      {"{\"turned\": [0, 45]}",
       "t.json:1:16: an entry of \"turned\" is 45; list how copy 1, 2, ... lies on the bed: 0, 90, 180 or 270, like "
       "[0, 90]\n"},
      {"{\"turned\": 90}",
       "t.json:1:12: \"turned\" is a number; list how copy 1, 2, ... lies on the bed: 0, 90, 180 or 270, like [0, "
       "90]\n"},
      {"{\"machine\": {\"x\": 0, \"y\": 0}, \"shrink\": {\"xy\": 0, \"z\": 0}}",
       "t.json:1:13: \"machine\" lacks \"z\"; give it as well\n"},
      {"{\"machine\": {\"x\": 0, \"y\": 0, \"z\": 0}}",
       "t.json:1:13: \"machine\" is given without \"shrink\"; give both, or neither and \"scale\"\n"},
      {"{\"complete_columns\": 1}", "t.json:1:22: \"complete_columns\" is a number; give true or false\n"},
      {"{\"features\": []}", "t.json:1:14: \"features\" is empty; list at least one feature, or leave the key out\n"},
      {"{\"features\": [[\"a\", \"outter\", \"x\", 10]]}",
       "t.json:1:21: \"outter\" is not a kind; did you mean \"outer\"?\n"},
      {"{\"features\": [[\"a\", \"hole\", \"x\", 10]]}", "t.json:1:29: the axis of \"hole\" cannot be \"x\"; use z\n"},
      {"{\"features\": [[\"a\", \"outer\", \"q\", 10]]}",
       "t.json:1:30: the axis of \"outer\" cannot be \"q\"; use x, y or z\n"},
      {"{\"features\": [[\"a\", \"outer\", \"x\", 0]]}",
       "t.json:1:35: a length is 0 mm; give one from 0.001 to 10000 mm\n"},
      {"{\"features\": [[\"a\", \"zero\", \"n\", 5]]}",
       "t.json:1:34: the size of \"zero\" is 5; closed jaws are 0 mm apart\n"},
      {"{\"features\": [[\"a\", \"outer\", \"x\", [10]]]}",
       "t.json:1:35: the length of \"outer\" is not what this kind needs; give one length in mm\n"},
      {"{\"features\": [[\"a\", \"diag+\", \"xy\", 10]]}",
       "t.json:1:36: the length of \"diag+\" is not what this kind needs; give [side along X, side along Y] in mm\n"},
      {"{\"features\": [[\"a\", \"flats-\", \"xy\", [10, 20, \"x\"]]]}",
       "t.json:1:46: a length is text; give [width over the flats, side along X, side along Y] in mm\n"},
      {"{\"features\": [[\"a,b\", \"outer\", \"x\", 10]]}",
       "t.json:1:16: the feature_id \"a,b\" is not a usable name; give a name without commas, quotes, line breaks and "
       "blanks at its ends\n"},
      {"{\"features\": [[7, \"outer\", \"x\", 10]]}",
       "t.json:1:16: the feature_id is a number; give a short name in quotes\n"},
      {"{\"features\": [[\"a\", \"outer\", \"x\"]]}",
       "t.json:1:15: a feature must be a list of four entries, or six with named faces; write it like [\"X40\", "
       "\"outer\", \"x\", 40]\n"},
      {"{\"features\": [[\"a\", \"outer\", \"x\", 10, \"l\", \"l\"]]}",
       "t.json:1:44: both faces are called \"l\"; name two different faces\n"},
      {"{\"features\": [\n[\"a\", \"outer\", \"x\", 10],\n[\"a\", \"outer\", \"y\", 10]]}",
       "t.json:3:1: feature \"a\" is already on line 2; give each feature a name of its own\n"},
  };
  for (const Case& c : cases) {
    INFO(c.json);
    CHECK(messages(c.json) == c.expected);
  }
}

TEST_CASE("All defects of a truth come at once, and columns count characters") {
  CHECK(messages("{\"ö\": 1, \"e\": \"x\",\n\"copies\": -1}") ==
        "t.json:1:2: \"ö\" is not a key that belongs here; use scale, machine, shrink, e, z0, skew, layer, hole, "
        "hole_h, peg, "
        "flare, pin_step, turned, wall, caliper, noise, typo, copies, repeats, features or complete_columns, or take "
        "it out\n"
        "t.json:1:15: \"e\" is text; give a number from -100 to 100 mm\n"
        "t.json:2:11: \"copies\" is -1; give a number from 1 to 1e+06\n");
}
