// Intervals with a part of the variance assumed.

#include "stats/assumed_scatter.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <vector>

#include "stats/intervals.hpp"

using namespace fitwright;

TEST_CASE("two-part interval: limits are Student's own") {
  for (double df : {2.0, 4.0, 5.0, 9.0}) {
    CHECK(two_part_half_width({0, 10, 4.0, df}, 0.95) == Approx(2 * coverage_factor(0.95, df)).epsilon(1e-12));
    CHECK(two_part_half_width({4.0, df, 0, 4}, 0.95) == Approx(2 * coverage_factor(0.95, df)).epsilon(1e-12));
  }
}

TEST_CASE("two-part interval: agrees with plain integration over the assumed variance") {
  // 20,000 equal slices of the chance of chi-squared(4): a route of its own, good to about 1e-5.
  const int slices = 20000;
  std::vector<double> chi_squared;
  for (int k = 0; k < slices; ++k) chi_squared.push_back(chi_squared_quantile((k + 0.5) / slices, 4));
  for (double share : {0.2, 1.4, 10.0}) {
    const double h = two_part_half_width({1.0, 10, share, 4}, 0.95);
    double beyond = 0;
    for (double w : chi_squared) {
      const double total = 1 + share * 4 / w;
      beyond += t_two_sided_p(h / std::sqrt(total), 10 * total * total) / slices;
    }
    INFO("assumed over estimated " << share);
    CHECK(beyond == Approx(0.05).epsilon(2e-4));
  }
}

TEST_CASE("two-part interval: never shorter than either part alone, and scales with the unit") {
  for (double share : {0.1, 0.5, 1.0, 3.0, 10.0}) {
    const double h = two_part_half_width({1.0, 10, share, 4}, 0.95);
    CHECK(h > coverage_factor(0.95, 10));
    CHECK(h > coverage_factor(0.95, 4) * std::sqrt(share));
    CHECK(two_part_half_width({1e-6, 10, 1e-6 * share, 4}, 0.95) == Approx(1e-3 * h).epsilon(1e-7));
  }
}

TEST_CASE("two-part interval: covers at its level when the assumed variance is drawn as stated") {
  // 10,000 draws: the share covered has a standard deviation of 0.0022. The estimated variance is drawn too.
  std::mt19937_64 random(20261125);
  std::normal_distribution<double> normal;
  const auto chi_squared = [&](int df) {
    double sum = 0;
    for (int k = 0; k < df; ++k) sum += std::pow(normal(random), 2);
    return sum;
  };
  for (double share : {0.3, 1.4, 5.0}) {
    int covered = 0;
    const int draws = 10000;
    for (int k = 0; k < draws; ++k) {
      const double error = normal(random) + normal(random) * std::sqrt(share * 4 / chi_squared(4));
      covered += std::abs(error) <= two_part_half_width({chi_squared(10) / 10, 10, share, 4}, 0.95) ? 1 : 0;
    }
    INFO("assumed over estimated " << share);
    CHECK(covered / double(draws) > 0.95 - 3 * 0.0022);
    CHECK(covered / double(draws) < 0.96 + 3 * 0.0022);  // a little on the safe side where both parts are alike
  }
}
