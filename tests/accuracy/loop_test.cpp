// Closing the loop, in short: print, read, estimate, correct, and what physics says remains.

#include "accuracy/loop.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "accuracy/criteria.hpp"

using namespace fitwright;
using namespace fitwright::accuracy;

TEST_CASE("what remains after a correction is what was announced") {
  constexpr int runs = 100;
  const double margin = 4 * std::sqrt(least_inside * (1 - least_inside) / runs);  // 10 %
  for (const LoopScenario& s :
       {LoopScenario{Places::coupons, {"2 turned", 2, {0, 90}}}, LoopScenario{Places::list, {"3 alike", 3, {}}}})
    for (const LoopTally& t : close_the_loop(s, runs, 1)) {
      INFO(s.lay.name << ", " << word(t.policy) << ", " << t.length);
      CHECK(t.inside >= least_inside - margin);
      CHECK(t.mean_t < most_mean_t);
      // A policy corrects or says what it leaves: an error that is neither would show here.
      CHECK(t.remaining_mm < t.announced_mm + 0.06);
      if (t.policy == Policy::shrink && s.places == Places::coupons) CHECK(t.remaining_mm < t.before_mm / 3);
    }
}
