// Thresholds between the grades: the weak prior, its intervals, and what cannot go wrong with few trials.

#include "fits/thresholds.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "fits/ladder_posterior.hpp"
#include "fits/next_clearances.hpp"
#include "practice/stream.hpp"

namespace {

using fitwright::ClearanceUsed;
using fitwright::FitTrial;
using fitwright::Grade;
using fitwright::TrialSet;

TrialSet trials(const std::vector<double>& clearance, const std::vector<int>& grade) {
  TrialSet set{"test", {}};
  for (std::size_t i = 0; i < clearance.size(); ++i)
    set.rows.push_back({clearance[i], static_cast<Grade>(grade[i]), 1, {}, {}, 0, {}});
  return set;
}

/// Fifteen places; expected values by a general optimiser (R, optim) on the formulas of docs/mathematics.md.
const TrialSet fifteen = trials({-0.1, -0.1, 0.0, 0.0, 0.05, 0.1, 0.1, 0.15, 0.2, 0.2, 0.25, 0.3, 0.35, 0.4, 0.4},
                                {0, 0, 1, 0, 1, 1, 2, 2, 3, 2, 3, 3, 4, 4, 4});

}  // namespace

TEST_CASE("maximum of the posterior of an ordinal probit") {
  const auto t = fitwright::thresholds_from(fifteen, ClearanceUsed::nominal);
  REQUIRE(t.ok());
  const double expected[] = {-0.002315058, 0.09991802, 0.20080012, 0.3237233};
  for (std::size_t k = 0; k < 4; ++k) CHECK(t->t_mm[k].value == Approx(expected[k]).margin(1e-6));
  CHECK(t->s_mm.value == Approx(0.027908543).margin(1e-6));
  CHECK(t->neg_log_posterior == Approx(5.1981145).margin(1e-6));
  // The likelihood alone, at a point of its own.
  const fitwright::ThresholdDraw at{{-0.05, 0.05, 0.15, 0.30}, 0.04, 1};
  const auto data = fitwright::ladder_data(fifteen, ClearanceUsed::nominal);
  CHECK(fitwright::ladder_at(data, fitwright::free_of(at)).neg_log_likelihood == Approx(9.9085835).margin(1e-6));
  for (const auto& r : t->t_mm) {
    CHECK(r.lower < r.value);
    CHECK(r.value < r.upper);
  }
}

TEST_CASE("slopes and curvature of the posterior agree with differences") {
  const auto data = fitwright::ladder_data(fifteen, ClearanceUsed::nominal);
  const fitwright::LadderVector at = fitwright::free_of({{-0.03, 0.06, 0.17, 0.31}, 0.05, 1});
  const auto point = fitwright::ladder_at(data, at);
  CHECK(fitwright::ladder_value(data, at) == Approx(point.value).epsilon(1e-12));
  constexpr double h = 1e-5;
  for (int i = 0; i < fitwright::ladder_parameters; ++i) {
    fitwright::LadderVector up = at, down = at;
    up[i] += h;
    down[i] -= h;
    const auto above = fitwright::ladder_at(data, up), below = fitwright::ladder_at(data, down);
    CHECK(point.gradient[i] == Approx((above.value - below.value) / (2 * h)).epsilon(1e-6).margin(1e-6));
    for (int j = 0; j < fitwright::ladder_parameters; ++j)
      CHECK(point.hessian(i, j) ==
            Approx((above.gradient[j] - below.gradient[j]) / (2 * h)).epsilon(1e-6).margin(1e-5));
  }
}

TEST_CASE("perfect separation, one copy, one trial, one grade: always finite") {
  const std::vector<TrialSet> sets{
      trials({-0.2, -0.15, -0.1, -0.05, 0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5},
             {0, 0, 0, 1, 1, 2, 2, 2, 3, 3, 3, 4, 4, 4, 4}),
      trials({0.1}, {2}), trials({0, 0.1, 0.2}, {3, 3, 3}), trials({0.3, 0.2, 0.1}, {0, 2, 4}),
      trials({-5, 5}, {4, 0})};
  for (const TrialSet& set : sets) {
    const auto t = fitwright::thresholds_from(set, ClearanceUsed::nominal);
    REQUIRE(t.ok());
    for (std::size_t k = 0; k < 4; ++k) {
      CHECK(std::isfinite(t->t_mm[k].value));
      CHECK(t->t_mm[k].lower < t->t_mm[k].upper);
      if (k > 0) CHECK(t->t_mm[k - 1].value < t->t_mm[k].value);
    }
    CHECK(t->s_mm.value > 0);
    double sum = 0;
    for (const auto& d : t->draws) sum += d.weight;
    CHECK(sum == Approx(1).epsilon(1e-9));
    for (const double c : {-0.3, 0.0, 0.2, 0.7}) {
      double all = 0;
      for (const double p : fitwright::chances(*t, c)) all += p;
      CHECK(all == Approx(1).epsilon(1e-9));
    }
  }
}

TEST_CASE("shifting every clearance shifts the thresholds, as far as the weak prior lets it") {
  TrialSet shifted = fifteen;
  for (FitTrial& t : shifted.rows) t.clearance_mm += 0.1;
  const auto a = fitwright::thresholds_from(fifteen, ClearanceUsed::nominal);
  const auto b = fitwright::thresholds_from(shifted, ClearanceUsed::nominal);
  REQUIRE((a.ok() && b.ok()));
  for (std::size_t k = 0; k < 4; ++k) CHECK(b->t_mm[k].value - a->t_mm[k].value == Approx(0.1).margin(0.001));
}

TEST_CASE("the best clearance of a fit lies between its thresholds, loose beyond the last") {
  const auto t = fitwright::thresholds_from(fifteen, ClearanceUsed::nominal);
  REQUIRE(t.ok());
  for (const auto fit : fitwright::all_fits) {
    const auto best = fitwright::best_clearance(*t, fit);
    const auto grade = static_cast<std::size_t>(fitwright::grade_of(fit));
    CHECK(best.clearance_mm > t->t_mm[grade - 1].value);
    if (fit != fitwright::Fit::loose) {
      CHECK(best.clearance_mm < t->t_mm[grade].value);
      CHECK(best.chance >= fitwright::chances(*t, best.clearance_mm + 0.003)[grade] - 1e-9);
      CHECK(best.chance >= fitwright::chances(*t, best.clearance_mm - 0.003)[grade] - 1e-9);
    } else {
      CHECK(best.chance == Approx(fitwright::loose_chance).margin(1e-3));
    }
  }
}

TEST_CASE("contradictions are shown") {
  TrialSet set = trials({0.0, 0.1, 0.2}, {1, 3, 2});
  set.rows.push_back({0.1, Grade::press, 2, {}, {}, 0, {}});
  const auto t = fitwright::thresholds_from(set, ClearanceUsed::nominal);
  REQUIRE(t.ok());
  REQUIRE(t->contradictions.size() == 2);
  CHECK(t->contradictions[0].between_copies);
  CHECK(t->contradictions[0].text == "At 0.1 mm copy 2 goes in with a tool, copy 1 slides.");
  CHECK_FALSE(t->contradictions[1].between_copies);
  CHECK(t->contradictions[1].text ==
        "On copy 1 the place at 0.2 mm is pushed in by hand, although the one at 0.1 mm slides.");
  CHECK(t->trials == 4);
}

TEST_CASE("measured clearances are asked for by row when they are missing") {
  TrialSet set = fifteen;
  set.rows[0].measured_clearance_mm = -0.08;
  CHECK(fitwright::clearance_to_use(set) == ClearanceUsed::nominal);
  const auto t = fitwright::thresholds_from(set, ClearanceUsed::measured);
  REQUIRE_FALSE(t.ok());
  CHECK(t.problems().size() == 14);
}

TEST_CASE("the next places go where the fit that matters begins and ends") {
  TrialSet eight{"test", {}};
  const fitwright::ThresholdDraw truth{{-0.05, 0.05, 0.15, 0.30}, 0.02, 1};
  for (int i = 0; i < 8; ++i) {
    const double c = -0.2 + 0.1 * i;
    int g = 0;
    for (const double t : truth.t_mm) g += c > t;
    eight.rows.push_back({c, static_cast<Grade>(g), 1, {}, {}, 0, {}});
  }
  fitwright::Thresholds at;
  for (std::size_t k = 0; k < 4; ++k) at.t_mm[k] = {truth.t_mm[k], 0, 0};
  at.s_mm = {0.02, 0, 0};
  const auto one = fitwright::next_clearances(eight, at, {0, 0, 1, 0}, 7);
  REQUIRE(one.clearance_mm.size() == 7);
  for (const double c : one.clearance_mm) CHECK(std::abs(c - 0.15) <= 0.0251);  // a probit tells most at its threshold
  const auto sliding = fitwright::next_clearances(eight, at, fitwright::weights_for(fitwright::Fit::sliding), 6);
  int at_lower = 0, at_upper = 0;
  for (const double c : sliding.clearance_mm) {
    at_lower += std::abs(c - 0.15) <= 0.0251;
    at_upper += std::abs(c - 0.30) <= 0.0251;
  }
  CHECK(at_lower + at_upper == 6);
  CHECK(at_lower >= 2);
  CHECK(at_upper >= 2);
  for (std::size_t k = 2; k < 4; ++k) CHECK(sliding.sd_after_mm[k] < sliding.sd_now_mm[k]);
}

TEST_CASE("the intervals hold the thresholds as often as they say") {
  // Ladders of 15 places on one or three copies; thresholds shifted from ladder to ladder, scatter 0.02 to 0.06 mm.
  constexpr int ladders = 100;
  for (const int copies : {1, 3}) {
    int held = 0, s_held = 0;
    for (int run = 0; run < ladders; ++run) {
      const auto seed = static_cast<std::uint64_t>(1000 * copies + run);
      const double shift = 0.05 * fitwright::stream_normal(seed, "shift");
      const double s = 0.02 + 0.04 * fitwright::stream_uniform(seed, "s");
      const std::array<double, 4> t{-0.05 + shift, 0.05 + shift, 0.15 + shift, 0.30 + shift};
      TrialSet set{"simulated", {}};
      for (int copy = 1; copy <= copies; ++copy)
        for (int i = 0; i < 15; ++i) {
          const double c = -0.2 + 0.05 * i;
          const double at =
              c + s * fitwright::stream_normal(seed, "feel" + std::to_string(copy) + '|' + std::to_string(i));
          int g = 0;
          for (const double each : t) g += at > each;
          set.rows.push_back({c, static_cast<Grade>(g), copy, {}, {}, 0, {}});
        }
      const auto found = fitwright::thresholds_from(set, ClearanceUsed::nominal).value();
      for (std::size_t k = 0; k < 4; ++k) held += found.t_mm[k].lower <= t[k] && t[k] <= found.t_mm[k].upper;
      s_held += found.s_mm.lower <= s && s <= found.s_mm.upper;
    }
    // 95 % wanted; 400 intervals, those of one ladder leaning on each other: 4 standard deviations of 200.
    const double share = held / (4.0 * ladders);
    INFO(copies << " copies: " << share << ", scatter " << s_held);
    CHECK(share > 0.95 - 4 * std::sqrt(0.95 * 0.05 / 200));
    CHECK(s_held >= 88);
  }
}
