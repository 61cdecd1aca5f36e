// A short form of the study of promised chances.

#include "accuracy/promise.hpp"

#include <catch2/catch.hpp>
#include <cmath>

TEST_CASE("chances that an allowance promises are kept") {
  using namespace fitwright::accuracy;
  constexpr int count = 120;
  for (const Knows knows : {Knows::nothing, Knows::nominal_ladder, Knows::measured_ladder}) {
    double promised = 0, true_chance = 0;
    int loose = 0;
    double off = 0;
    for (const Kept& k : users(knows, 0, count, 0.9, 2)) {
      promised += k.promised;
      true_chance += k.true_chance;
      CHECK(k.true_chance <= 1);
      if (k.fit == fitwright::Fit::loose) off += std::abs(k.off_best_mm), ++loose;
    }
    // Chances of single users spread by about 0.2 about what was promised: 4 standard deviations of the mean.
    CHECK(true_chance / count == Approx(promised / count).margin(4 * 0.2 / std::sqrt(count)));
    CHECK(off / loose < 0.2);  // "always loose" does not pass
  }
}
