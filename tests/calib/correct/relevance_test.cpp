// Whether an effect matters, and what a whole correction does to a length.

#include "correct/relevance.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "correct/total_effect.hpp"

using namespace fitwright;

TEST_CASE("an effect matters when it is established and large, and does not when all of its interval is small") {
  CHECK(relevance(0.16, 0.10, 0.22, true, 0.1) == Relevance::matters);
  CHECK(relevance(-0.16, -0.22, -0.10, true, 0.1) == Relevance::matters);
  CHECK(relevance(0.16, -0.02, 0.34, false, 0.1) == Relevance::may_matter);
  CHECK(relevance(0.08, 0.04, 0.12, true, 0.1) == Relevance::may_matter);
  CHECK(relevance(0.05, 0.02, 0.08, true, 0.1) == Relevance::does_not_matter);
  CHECK(relevance(0.05, 0.08, 0.02, true, 0.1) == Relevance::does_not_matter);  // bounds the other way round
  CHECK(relevance(0.05, -std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity(), false,
                  0.1) == Relevance::may_matter);
  CHECK(relevance(0.05, std::nan(""), std::nan(""), false, 0.1) == Relevance::may_matter);
}

TEST_CASE("the knobs of a correction add up on a length; steps act along their own axis only") {
  Correction c;
  const auto change = [](const char* knob, double on_20, double on_100, double on_200) {
    Change made;
    made.knob = knob;
    made.effect_mm = {{20, on_20}, {100, on_100}, {200, on_200}};
    return made;
  };
  c.changes = {change("size_factor", 0.08, 0.4, 0.8), change("outline_offset_mm", -0.16, -0.16, -0.16),
               change("steps_per_mm.x", 0.01, 0.05, 0.1), change("steps_per_mm.y", -0.02, -0.1, -0.2)};
  CHECK(total_effect_mm(c, 'x', 100).value() == Approx(0.29));
  CHECK(total_effect_mm(c, 'y', 100).value() == Approx(0.14));
  CHECK(total_effect_mm(c, 'y', 200).value() == Approx(0.44));
  CHECK_FALSE(total_effect_mm(c, 'x', 50).has_value());
  CHECK(total_effect_mm(Correction{}, 'x', 100).value() == 0);
}
