#include "report/correct_report.hpp"

#include <catch2/catch.hpp>
#include <sstream>

#include "base/text.hpp"
#include "json_keys.hpp"
#include "report/layout.hpp"
#include "sample.hpp"

using namespace fitwright;

TEST_CASE("a correction as JSON has the documented keys in the documented order") {
  const std::string text = correct_json(sample_correction());
  CHECK(text.ends_with("}\n"));
  const Json doc = Json::parse(text);
  CHECK(keys(doc) == Names{"schema", "policy", "before", "after", "changes", "left_alone", "remains_mm", "invariant",
                           "cautions", "commands"});
  CHECK(doc["schema"] == 1);
  CHECK(doc["policy"] == "shrink");
  const Names state{"size_factor",           "outline_offset_mm",    "flow",
                    "steps_per_mm",          "bead_width_mm",        "layer_height_mm",
                    "first_layer_height_mm", "first_layer_inset_mm", "hole_offset_mm",
                    "z_offset_mm",           "flow_edge_gain_mm"};
  CHECK(keys(doc["before"]) == state);
  CHECK(keys(doc["after"]) == state);
  CHECK(keys(doc["before"]["steps_per_mm"]) == Names{"x", "y", "z", "e"});
  CHECK(keys(doc["changes"][0]) == Names{"knob", "old", "new", "u", "established", "because", "effect_mm"});
  CHECK(keys(doc["changes"][0]["effect_mm"]) == Names{"20", "100", "200"});
  CHECK(keys(doc["left_alone"][0]) == Names{"knob", "because"});
  CHECK(keys(doc["remains_mm"]) == Names{"x100", "y100", "slot_x20"});
  CHECK(keys(doc["remains_mm"]["x100"]) == Names{"value", "u", "lower", "upper", "u_with_surroundings"});
  CHECK(keys(doc["invariant"]) == Names{"x", "y"});
  CHECK(doc["after"]["size_factor"].get<double>() == 1.00251);
}

TEST_CASE("the size factor is told in the three forms that programs ask for") {
  // 1 - 1/1.25 = 20 %: drawn 25 % larger, it may shrink by 20 %.
  CHECK(size_factor_forms(1.25) == "larger by +25.000 %; as shrinkage 20.000 %; as size 125.000 %");
  CHECK(size_factor_forms(1) == "larger by 0.000 %; as shrinkage 0.000 %; as size 100.000 %");
}

TEST_CASE("text shows each knob with old and new value, what it does, and cautions before commands") {
  const std::string text = correct_text(sample_correction());
  std::size_t at = 0;
  for (const char* piece :
       {"Policy shrink", "20 mm  100 mm  200 mm",
        "size factor         1.00000  1.00251  0.00050  +0.05   +0.25   +0.50",
        "outline offset, mm    0.000   -0.081    0.012  -0.16   -0.16   -0.16", "both axes are short alike",
        "as shrinkage 0.250 %", "per edge: -0.081 mm", "-0.162 mm", "steps per mm, Z: not established",
        "outside, 100 mm along X", "slot, 20 mm along X       0.001 ± 0.071 mm  (± 0.080 mm)",
        "Note the old steps first.", "M92 X80.08 Y79.92"}) {
    INFO(piece << "\n" << text);
    std::size_t found = text.find(piece, at);
    REQUIRE(found != std::string::npos);
    at = found;
  }
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(characters(line) <= page_width);
}

TEST_CASE("nothing to change is said as such") {
  Correction c = sample_correction();
  c.changes.clear();
  CHECK(correct_text(c).find("Change nothing.") != std::string::npos);
}
