// The state file: what comes back, what it looks like when written, and how each defect is told.
#include "correct/state.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace fitwright;

namespace {

Problems defects(const std::string& text) {
  const auto result = parse_state(text, "s.json");
  REQUIRE_FALSE(result.ok());
  return result.problems();
}

std::string only_defect(const std::string& text) {
  const Problems all = defects(text);
  REQUIRE(all.size() == 1);
  CHECK(all[0].code == Code::bad_input);
  CHECK(!all[0].remedy.empty());
  return all[0].text();
}

bool starts(const std::string& text, const std::string& with) { return text.rfind(with, 0) == 0; }

}  // namespace

TEST_CASE("an empty object is the state of defaults") {
  const auto s = parse_state("{}", "s.json");
  REQUIRE(s.ok());
  CHECK(s->size_factor == 1.0);
  CHECK(s->steps_per_mm.x == 80);
  CHECK(s->steps_per_mm.z == 400);
  CHECK(s->flow_edge_gain_mm == 0.4);
}

TEST_CASE("a written state reads back to the same numbers, in the documented order") {
  State s;
  s.size_factor = 1.0045118;
  s.outline_offset_mm = -0.1 / 3;
  s.steps_per_mm = {80.08, 79.92, 400, 93.1};
  s.flow = 0.98;
  s.z_offset_mm = 1e-5;
  const std::string text = to_json(s);
  const auto back = parse_state(text, "s.json");
  REQUIRE(back.ok());
  CHECK(to_json(*back) == text);
  CHECK(back->outline_offset_mm == s.outline_offset_mm);
  CHECK(back->steps_per_mm.e == 93.1);
  std::vector<std::string> keys;
  const auto written = nlohmann::ordered_json::parse(text);
  for (const auto& [key, value] : written.items()) keys.push_back(key);
  CHECK(keys == std::vector<std::string>{"size_factor", "outline_offset_mm", "flow", "steps_per_mm", "bead_width_mm",
                                         "layer_height_mm", "first_layer_height_mm", "first_layer_inset_mm",
                                         "hole_offset_mm", "z_offset_mm", "flow_edge_gain_mm"});
}

TEST_CASE("part of the steps may be given") {
  const auto s = parse_state("{\"steps_per_mm\":{\"y\":100.25}}", "s.json");
  REQUIRE(s.ok());
  CHECK(s->steps_per_mm.y == 100.25);
  CHECK(s->steps_per_mm.x == 80);
}

TEST_CASE("every defect of a state comes back at once, with its place") {
  const Problems all = defects(
      "{\n"
      "  \"size_facter\": 1.002,\n"
      "  \"flow\": 98,\n"
      "  \"steps_per_mm\": {\"x\": 0, \"q\": 3},\n"
      "  \"layer_height_mm\": \"0.2\"\n"
      "}\n");
  REQUIRE(all.size() == 5);
  CHECK(all[0].text() == "s.json:2:3: \"size_facter\" is not a key of a state; did you mean size_factor?");
  CHECK(starts(all[1].text(), "s.json:3:11: flow is 98, outside 0.3 to 2"));
  CHECK(starts(all[2].text(), "s.json:4:25: steps_per_mm.x is 0, outside"));
  CHECK(all[3].text() == "s.json:4:28: \"q\" is not a key of steps_per_mm; the keys are x, y, z or e");
  CHECK(starts(all[4].text(), "s.json:5:22: layer_height_mm is text, not a number"));
}

TEST_CASE("ranges of a state") {
  CHECK(starts(only_defect("{\"size_factor\": 2.5}"), "s.json:1:17: size_factor is 2.5, outside 0.5 to 2"));
  CHECK(starts(only_defect("{\"flow\": 0.2}"), "s.json:1:10: flow is 0.2"));
  CHECK(starts(only_defect("{\"layer_height_mm\": 0}"), "s.json:1:21: layer_height_mm is 0"));
  CHECK(starts(only_defect("{\"steps_per_mm\":{\"z\":-400}}"), "s.json:1:22: steps_per_mm.z is -400"));
  CHECK(starts(only_defect("{\"steps_per_mm\": 80}"), "s.json:1:18: steps_per_mm is a number, not an object"));
  CHECK(starts(only_defect("{\"flow\": null}"), "s.json:1:10: flow is null, not a number"));
  CHECK(starts(only_defect("{\"flow\": {\"a\": {\"b\": 1}}}"), "s.json:1:10: flow is an object, not a number"));
}

TEST_CASE("text that is not JSON is told by place and without any library's words") {
  CHECK(starts(only_defect(""), "s.json:1:1: "));
  CHECK(starts(only_defect("{\n\"flow\" 0.98}"), "s.json:2:"));
  CHECK(starts(only_defect("{\"flow\": 0.98"), "s.json:1:14: the JSON text ends too early"));
  CHECK(starts(only_defect("{\"flow\": 1e999}"), "s.json:1:"));
  CHECK(starts(only_defect("[1, 2]"), "s.json:1:1: a state is a JSON object, not a list"));
  CHECK(starts(only_defect("{\"flow\": 1, \"flow\": 0.98}"), "s.json:1:13: \"flow\" is given twice"));
  CHECK(only_defect("{\"flow\": tru}").find("nlohmann") == std::string::npos);
}

TEST_CASE("columns count characters, and a byte order mark is none") {
  const Problems all = defects("\xEF\xBB\xBF{\"\xC3\xA9\": 1, \"flow\": 0.1}");
  REQUIRE(all.size() == 2);
  CHECK(all[0].where.column == 2);
  CHECK(all[1].where.column == 18);
}

TEST_CASE("deep nesting and hostile shapes do not bring the reader down") {
  CHECK(defects(std::string(100000, '[')).size() == 1);
  CHECK(defects(std::string(50000, '[') + std::string(50000, ']')).size() == 1);
  CHECK(starts(only_defect("{\"a\": [{\"flow\": 1}, \"}\", \"\\\"\"]}"), "s.json:1:2: \"a\" is not a key"));
}
