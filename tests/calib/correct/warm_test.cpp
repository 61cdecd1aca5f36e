// Parts read warm.

#include <catch2/catch.hpp>

#include "correct/finding.hpp"
#include "hand_made.hpp"

using namespace fitwright;
using fitwright::testing::lengths_of;

namespace {

std::vector<Finding> at_temperature(double celsius) {
  ReadingSet set;
  Reading r;
  r.feature.id = "X100";
  r.reading_mm = 100;
  r.part_c = celsius;
  set.rows.push_back(r);
  return findings(lengths_of(-0.003, -0.003, 0.08), set);
}

const Finding* warm(const std::vector<Finding>& all) {
  for (const Finding& f : all)
    if (f.id == "warm") return &f;
  return nullptr;
}

}  // namespace

TEST_CASE("warm: told from where heat alone would show, in mm on the user's part") {
  CHECK_FALSE(warm(at_temperature(20)));
  CHECK_FALSE(warm(at_temperature(23)));
  const auto hand_warm = at_temperature(30);  // 7e-5 x 10 K x 100 mm = 0.07 mm
  REQUIRE(warm(hand_warm));
  CHECK(warm(hand_warm)->severity == Severity::know);
  CHECK(warm(hand_warm)->text.find("0.07 mm long") != std::string::npos);
  const auto hot = at_temperature(45);
  REQUIRE(warm(hot));
  CHECK(warm(hot)->severity == Severity::act);
  REQUIRE(warm(at_temperature(5)));
  CHECK(warm(at_temperature(5))->text.find("short") != std::string::npos);
}
