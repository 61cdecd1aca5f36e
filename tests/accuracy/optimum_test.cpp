// The optimum that the estimator is held against, checked against closed forms that use none of its code.

#include "accuracy/optimum.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "accuracy/scenario.hpp"
#include "model/estimates.hpp"

using namespace fitwright;
using namespace fitwright::accuracy;

namespace {

/// A reading of every place of the truth, at any value: uncertainties do not depend on it.
std::map<std::string, Best> best_of(const Truth& truth, bool everything) {
  return optimum(truth, simulate(truth, 1), everything);
}

Truth only(const std::vector<TrueFeature>& features) {
  Truth t = default_truth();
  t.features = features;
  t.resolution_mm = 0;  // the closed forms know no rounding
  return t;
}

}  // namespace

TEST_CASE("one outside read with a known zero: its uncertainty is the sum of the variances") {
  // Z only: reading = z0 + zero + L s_z. Two heights far apart, one copy; slope and offset of a straight line.
  Truth t = only({{"Z10", Kind::outer, Axis::z, {10}, {}, {}}, {"Z90", Kind::outer, Axis::z, {90}, {}, {}}});
  t.copies = 1;
  t.repeats = 1;
  t.sd_copy_scale = 0;
  t.features.push_back({"Z0", Kind::zero, Axis::n, {0}, {}, {}});
  const auto best = best_of(t, false);
  const double one = t.sd_feature_mm * t.sd_feature_mm + t.sd_feature_copy_mm * t.sd_feature_copy_mm +
                     t.sd_reading_mm * t.sd_reading_mm;
  CHECK(best.at(name::scale_z).u == Approx(std::sqrt(2 * one) / 80).epsilon(1e-6));
  // z0 at length 0: (9 r10 - r90) / 8, less the zero.
  const double z0 = (81 + 1) / 64.0 * one + t.sd_reading_mm * t.sd_reading_mm;
  CHECK(best.at(name::z0).u == Approx(std::sqrt(z0)).epsilon(1e-6));
}

TEST_CASE("block, slot and block in a row: the faces cancel in the caliper's zero") {
  // outer A + slot + outer B = outer C over the same faces a b c d: (A + S + B - C) / 2 = zero + inside bias / 2, free
  // of what is bound to faces; four places' own scatter and readings remain. With the bias at its prior:
  Truth t = only({{"A", Kind::outer, Axis::x, {10}, "a", "b"},
                  {"S", Kind::inner, Axis::x, {20}, "b", "c"},
                  {"B", Kind::outer, Axis::x, {10}, "c", "d"},
                  {"C", Kind::outer, Axis::x, {40}, "a", "d"}});
  t.copies = 1;
  t.sd_copy_edge_mm = t.sd_copy_scale = 0;
  t.sd_feature_mm = 1000;  // so large that nothing but the chain tells the zero
  const double own = t.sd_feature_copy_mm * t.sd_feature_copy_mm + t.sd_reading_mm * t.sd_reading_mm / t.repeats;
  const double bias = 0.02;  // sd of the prior of the inside bias
  CHECK(best_of(t, false).at(name::caliper_zero).u == Approx(std::sqrt(own + bias * bias / 4)).epsilon(1e-4));
}

TEST_CASE("closed jaws and a gauge: the zero is their weighted mean, whatever the print would add") {
  // The chain of the case above, and steel besides. By hand: two means of three readings, the gauge with 0.002 mm of
  // its own (section 6 of docs/mathematics.md): u^-2 = (s^2/3)^-1 + (s^2/3 + 0.002^2)^-1.
  Truth t = only({{"A", Kind::outer, Axis::x, {10}, "a", "b"},
                  {"S", Kind::inner, Axis::x, {20}, "b", "c"},
                  {"B", Kind::outer, Axis::x, {10}, "c", "d"},
                  {"C", Kind::outer, Axis::x, {40}, "a", "d"},
                  {"Z0", Kind::zero, Axis::n, {0}, {}, {}},
                  {"G10", Kind::gauge, Axis::n, {10}, {}, {}}});
  t.copies = 1;
  t.repeats = 3;
  t.sd_feature_copy_mm = 0;
  const double zero = t.sd_reading_mm * t.sd_reading_mm / t.repeats, gauge = zero + 0.002 * 0.002;
  const double by_steel = 1 / std::sqrt(1 / zero + 1 / gauge);
  CHECK(best_of(t, false).at(name::caliper_zero).u == Approx(by_steel).epsilon(1e-6));
  CHECK(best_of(t, true).at(name::caliper_zero).u < 0.95 * by_steel);  // what the chain would add
}

TEST_CASE("lengths and heights of three copies: standard uncertainties of the closed form") {
  // Values worked out independently of this tree, to seven digits, from the covariance of docs/mathematics.md:
  // outsides 10 20 40 80 and slots 10 20 40 on X and Y, heights 5 10 20 40, three copies alike, three readings, zero
  // free, no inside bias.
  std::vector<TrueFeature> features;
  for (const TrueFeature& f : default_truth().features)
    if (f.kind == Kind::outer || f.kind == Kind::inner) features.push_back(f);
  const Truth t = only(features);
  const auto best = best_of(t, true);
  // The inside bias has a prior here and is 0 there: it moves zero and edge growth, but no scale.
  CHECK(best.at(name::scale_x).u == Approx(0.0004881347).epsilon(1e-6));
  CHECK(best.at(name::scale_y).u == Approx(0.0004881347).epsilon(1e-6));
  CHECK(best.at(name::scale_z).u == Approx(0.00122575).epsilon(1e-6));
  CHECK(std::pow(best.at(name::edge_growth).u, 2) ==
        Approx(std::pow(0.007390005, 2) + std::pow(0.02 / 4, 2)).epsilon(1e-6));
  CHECK(std::pow(best.at(name::caliper_zero).u, 2) ==
        Approx(std::pow(0.01495577, 2) + std::pow(0.02 / 2, 2)).epsilon(1e-6));
}

TEST_CASE("known-noise intervals hold the truth in 95 %") {
  constexpr int runs = 200;
  const Scenario s{Places::coupons, {"2 turned", 2, {0, 90}}, Truths::drawn_scatter, true, 0, 400001};
  double held = 0, all = 0;
  for (int k = 0; k < runs; ++k) {
    const Run r = make_run(s, k);
    for (const auto& [parameter, best] : optimum(r.truth, r.without_slips)) {
      held += std::abs(best.error) <= 1.959964 * best.u ? 1 : 0;
      all += 1;
    }
  }
  // About 14 parameters a run, dependent within a run: four standard deviations of 200 independent shares.
  CHECK(std::abs(held / all - 0.95) < 4 * std::sqrt(0.95 * 0.05 / runs));
}
