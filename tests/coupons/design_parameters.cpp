// Parameters as typed: every defect gets its own message, all at once.

#include <catch2/catch.hpp>

#include "design_helpers.hpp"

using namespace fitwright;
using namespace fitwright::design_test;

namespace {

Problems problems_of(const std::string& design, const Overrides& overrides) {
  const Result<Coupon> coupon = make_coupon(design, overrides);
  return coupon ? Problems{} : coupon.problems();
}

/// The one problem expected; fails the test when there are more or fewer.
Problem only(const std::string& design, const Overrides& overrides) {
  const Problems problems = problems_of(design, overrides);
  REQUIRE(problems.size() == 1);
  return problems.front();
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("parameters: every design lists them with range, unit and a default that works") {
  std::vector<std::string> names;
  for (const DesignInfo& info : designs()) names.push_back(info.name);
  CHECK(names == std::vector<std::string>{"frame", "bores", "walls", "stair", "rail", "tongue", "pockets", "latch"});
  for (const DesignInfo& info : designs()) {
    INFO(info.name);
    CHECK_FALSE(info.question.empty());
    std::map<std::string, double> defaults;
    for (const DesignParameter& p : info.parameters) {
      INFO(p.name);
      CHECK(p.min < p.max);
      CHECK(p.min <= p.default_value);
      CHECK(p.default_value <= p.max);
      CHECK_FALSE(p.unit.empty());
      CHECK_FALSE(p.meaning.empty());
      defaults[p.name] = p.default_value;
    }
    CHECK(made(info.name).values == defaults);
    CHECK(defaults.at("caliper_range_mm") == 150);
    CHECK(defaults.at("bed_x_mm") == 180);
    CHECK(defaults.at("bed_y_mm") == 180);
    CHECK(defaults.at("layer_height_mm") == 0.2);
    CHECK(defaults.at("first_layer_height_mm") == 0.2);
    CHECK(defaults.at("bead_width_mm") == 0.45);
    CHECK(defaults.at("density_g_cm3") == 1.24);
    CHECK(made(info.name).grams <= 15);
  }
}

TEST_CASE("parameters: a name the design does not have, a text for a number, a value out of range") {
  CHECK(only("cube", {}).code == Code::usage);
  CHECK(says(only("cube", {}).remedy, "frame, bores, walls, stair, rail, tongue, pockets, latch"));

  const Problem unknown = only("frame", {{"sides_mm", "80"}});
  CHECK(unknown.code == Code::usage);
  CHECK(says(unknown.what, "sides_mm"));
  CHECK(says(unknown.remedy, "side_mm"));

  for (const char* text : {"wide", "", "1e999", "nan", "99,5", "10 0"}) {
    INFO(text);
    const Problem p = only("frame", {{"side_mm", text}});
    CHECK(p.code == Code::usage);
    CHECK(says(p.what, "is not a number"));
    CHECK(says(p.what, std::string("'") + text + "'"));
  }

  for (const auto& [name, value] : Overrides{{"side_mm", "3"},
                                             {"side_mm", "-100"},
                                             {"layer_height_mm", "0"},
                                             {"bed_x_mm", "1e300"},
                                             {"density_g_cm3", "0"},
                                             {"bead_width_mm", "-0.4"}}) {
    INFO(name << " = " << value);
    const Problem p = only("frame", {{name, value}});
    CHECK(p.code == Code::bad_input);
    CHECK(says(p.what, name));
    CHECK(says(p.what, "out of range"));
    CHECK(says(p.remedy, "choose a value from"));
  }

  CHECK(only("frame", {{"side_mm", "80"}, {"side_mm", "90"}}).code == Code::usage);
  CHECK(only("walls", {{"piece", "1.5"}}).code == Code::bad_input);
}

TEST_CASE("parameters: all defects are told in one go, in the order typed") {
  const Problems all =
      problems_of("frame", {{"side_mm", "3"}, {"colour", "2"}, {"bed_x_mm", "wide"}, {"bead_width_mm", "9"}});
  REQUIRE(all.size() == 4);
  CHECK(says(all[0].what, "side_mm"));
  CHECK(says(all[1].what, "colour"));
  CHECK(says(all[2].what, "bed_x_mm"));
  CHECK(says(all[3].what, "bead_width_mm"));
}

TEST_CASE("parameters: a frame that does not fit says which parameter to change and to what, and that then works") {
  const Problem caliper = only("frame", {{"side_mm", "120"}});
  CHECK(caliper.code == Code::bad_input);
  CHECK(says(caliper.what, "caliper_range_mm"));
  CHECK(says(caliper.remedy, "set side_mm to 109 or less"));
  CHECK(says(caliper.remedy, "caliper_range_mm to 166"));
  CHECK(make_coupon("frame", {{"side_mm", "109"}}).ok());
  CHECK(make_coupon("frame", {{"side_mm", "120"}, {"caliper_range_mm", "166"}}).ok());
  CHECK(make_coupon("frame", {{"side_mm", "108"}}).ok());
  CHECK_FALSE(make_coupon("frame", {{"side_mm", "110"}}).ok());

  const Problem bed = only("frame", {{"bed_y_mm", "90"}});
  CHECK(says(bed.what, "bed_y_mm"));
  CHECK(says(bed.remedy, "set side_mm to 86 or less"));
  CHECK(make_coupon("frame", {{"bed_y_mm", "90"}, {"side_mm", "86"}}).ok());
  CHECK(make_coupon("frame", {{"bed_y_mm", "104"}}).ok());

  // Too large for all of them: one message each, and the advice suits the tightest.
  const Problems all = problems_of("frame", {{"side_mm", "150"}, {"bed_x_mm", "120"}, {"bed_y_mm", "100"}});
  REQUIRE(all.size() == 3);
  for (const Problem& p : all) CHECK(says(p.remedy, "set side_mm to 96 or less"));

  // A bed too small for any frame: no side is offered.
  const Problems none = problems_of("frame", {{"bed_x_mm", "50"}});
  REQUIRE(none.size() == 1);
  CHECK_FALSE(says(none[0].remedy, "side_mm"));
}

TEST_CASE("parameters: the other designs refuse what does not fit, too") {
  for (const char* design : {"bores", "walls", "stair"}) {
    INFO(design);
    const Problems p = problems_of(design, {{"bed_x_mm", "40"}, {"bed_y_mm", "41"}});
    CHECK(p.size() == 2);
    for (const Problem& each : p) CHECK(each.code == Code::bad_input);
  }
  CHECK(
      says(only("stair", {{"tallest_mm", "130"}, {"caliper_range_mm", "100"}}).remedy, "set tallest_mm to 99 or less"));
  CHECK(make_coupon("stair", {{"tallest_mm", "99"}, {"caliper_range_mm", "100"}}).ok());
}
