// Which mistyped readings are found, in short.

#include "accuracy/slips.hpp"

#include <catch2/catch.hpp>

using namespace fitwright::accuracy;

TEST_CASE("slips are found and sound readings let pass") {
  const SlipCheck check = check_slips(3, 60, 1);
  REQUIRE(check.by_kind.size() == 6);
  for (const SlipTally& t : check.by_kind) {
    INFO(t.slip);
    // Closed jaws read about zero: ten times that, or a tenth, is no slip that a rule can see, nor that matters.
    if (t.slip.find("point") != std::string::npos || t.slip.find("inch") != std::string::npos) CHECK(t.by_repeat > 0.9);
    // A swap of neighbouring digits can change a reading by less than the repeat check allows.
    if (t.slip.find("swapped") != std::string::npos) CHECK(t.by_repeat > 0.75);
    if (t.slip.find("whole") != std::string::npos) CHECK(t.by_repeat > 0.9);
    CHECK(t.by_gate <= t.by_repeat);
    CHECK(t.by_repeat <= t.by_all);
  }
  CHECK(check.sound > 7000);
  CHECK(check.suspected < check.sound / 100);
}
