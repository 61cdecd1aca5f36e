// How axes are driven, out of the record and back.

#include "record/drive.hpp"

#include <catch2/catch.hpp>

using namespace fitwright;
using namespace fitwright::record;

TEST_CASE("a drive comes back from its text as it went in") {
  Drives drives;
  drives['x'] = {.microsteps = 32, .belt_pitch_mm = 2, .pulley_teeth = 20, .screw_lead_mm = {}};
  drives['z'].screw_lead_mm = 8;
  drives['z'].reduction = 1.5;
  const auto back = parse_drives(to_json(drives), "the record");
  REQUIRE(back.ok());
  CHECK(to_json(*back) == to_json(drives));
  CHECK(back->at('x').microsteps == 32);
  CHECK_FALSE(back->at('x').screw_lead_mm);
  CHECK(theory_steps_per_mm(back->at('x')).value() == Approx(200 * 32 / 40.0));
  CHECK(to_json(Drives{}).empty());
  CHECK(parse_drives("", "the record")->empty());
}

TEST_CASE("a drive that cannot be read is told with every defect") {
  const auto bad = parse_drives(R"({"x":{"teeth":20,"microsteps":"16"},"q":{}})", "the record");
  REQUIRE_FALSE(bad.ok());
  CHECK(bad.problems().size() == 3);
  CHECK(bad.problems()[0].what.find("\"teeth\"") != std::string::npos);
  CHECK_FALSE(parse_drives("[1]", "the record").ok());
  CHECK_FALSE(parse_drives("{", "the record").ok());
}
