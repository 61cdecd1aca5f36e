// The estimator on readings: what it can and cannot tell, its defaults, and what it does with steel, slips and turns.

#include "model/estimate.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "practice/simulate.hpp"

using namespace fitwright;

namespace {

Reading reading(const std::string& id, Kind kind, Axis axis, double nominal, double value, int copy = 1,
                int repeat = 1) {
  Reading r;
  r.feature.id = id;
  r.feature.kind = kind;
  r.feature.axis = axis;
  r.feature.nominal_mm = nominal;
  r.copy = copy;
  r.repeat = repeat;
  r.reading_mm = value;
  return r;
}

/// Outsides on one axis with given readings.
ReadingSet outsides(const std::vector<std::pair<double, double>>& nominal_and_reading) {
  ReadingSet set;
  for (const auto& [nominal, value] : nominal_and_reading)
    set.rows.push_back(reading("X" + std::to_string(nominal), Kind::outer, Axis::x, nominal, value));
  return set;
}

bool lists(const Estimates& e, const std::set<std::string>& wanted) {
  return std::any_of(e.not_separable.begin(), e.not_separable.end(), [&](const NotSeparable& n) {
    return std::set<std::string>(n.parameters.begin(), n.parameters.end()) == wanted;
  });
}

const Combination* combination(const Estimates& e, const std::string& expr) {
  for (const Combination& c : e.combinations)
    if (c.expr == expr) return &c;
  return nullptr;
}

Truth quiet_truth() {
  Truth t = default_truth();
  t.sd_feature_mm = t.sd_feature_copy_mm = t.sd_copy_edge_mm = t.sd_copy_scale = t.sd_reading_mm = 0;
  t.resolution_mm = 0;
  return t;
}

}  // namespace

TEST_CASE("estimate: outside ladder with the zero read closed") {
  // Worked by ordinary least squares of deviation on length and 2 (numpy).
  ReadingSet set = outsides({{10, 10.13}, {20, 20.08}, {40, 40.03}, {80, 79.85}});
  set.rows.push_back(reading("Z0", Kind::zero, Axis::n, 0, 0.0));
  const Estimates e = estimate(set).value();
  CHECK(e.find(name::scale_x)->value == Approx(-0.003921739).epsilon(1e-6));
  CHECK(e.find(name::edge_growth)->value == Approx(0.08478261).epsilon(1e-6));
  CHECK(e.find(name::caliper_zero)->value == Approx(0.0).margin(1e-15));
}

TEST_CASE("estimate: outsides alone do not tell edge growth from the zero") {
  const ReadingSet set = outsides({{10, 10.13}, {20, 20.08}, {40, 40.03}, {80, 79.85}});
  const Estimates with = estimate(set).value();
  CHECK(lists(with, {name::edge_growth, name::caliper_zero}));
  REQUIRE(with.find(name::edge_growth));
  CHECK(with.find(name::edge_growth)->prior);
  CHECK_FALSE(with.find(name::caliper_zero)->established);  // its prior alone
  CHECK(with.find(name::caliper_zero)->u == Approx(0.02).epsilon(1e-6));
  const Combination* sum = combination(with, "2*edge_growth_mm + caliper_zero_mm");
  REQUIRE(sum);
  CHECK(sum->value == Approx(2 * 0.08478261).epsilon(1e-6));

  EstimateOptions bare;
  bare.use_priors = false;
  const Estimates without = estimate(set, bare).value();
  CHECK(without.priors.empty());
  CHECK_FALSE(without.find(name::edge_growth));
  CHECK_FALSE(without.find(name::caliper_zero));
  REQUIRE(without.find(name::scale_x));
  CHECK(without.find(name::scale_x)->u == Approx(0.0002820396).epsilon(1e-6));  // OLS, numpy
  CHECK(without.find(name::scale_x)->df == Approx(2));
  REQUIRE(combination(without, "2*edge_growth_mm + caliper_zero_mm"));
}

TEST_CASE("estimate: one length an axis tells nothing alone") {
  ReadingSet set = outsides({{20, 20.16}});
  set.rows.push_back(reading("Y20", Kind::outer, Axis::y, 20, 20.13));
  set.rows.push_back(reading("Z0", Kind::zero, Axis::n, 0, 0.0));
  const Estimates e = estimate(set).value();
  CHECK_FALSE(e.find(name::scale_x));
  CHECK_FALSE(e.find(name::edge_growth));
  CHECK(lists(e, {name::scale_x, name::scale_y, name::edge_growth}));
  const Combination* sum = combination(e, "20*scale_x + 2*edge_growth_mm");
  REQUIRE(sum);
  CHECK(sum->value == Approx(0.16).margin(1e-9));
}

TEST_CASE("estimate: outsides and slots, zero free") {
  // Worked by ordinary least squares with the inside jaws unbiased (statsmodels); the prior of the inside bias leaves
  // the values alone and adds to the uncertainty of edge growth (0.02 / 4) and zero (0.02 / 2).
  ReadingSet set = outsides({{10, 10.15}, {20, 20.1}, {40, 40.05}, {80, 79.87}});
  for (const auto& [nominal, value] : {std::pair{10.0, 9.82}, {20.0, 19.77}, {40.0, 39.71}})
    set.rows.push_back(reading("S" + std::to_string(nominal), Kind::inner, Axis::x, nominal, value));
  const Estimates e = estimate(set).value();
  CHECK(e.find(name::scale_x)->value == Approx(-0.003872818).epsilon(1e-6));
  CHECK(e.find(name::edge_growth)->value == Approx(0.08267456).epsilon(1e-6));
  CHECK(e.find(name::caliper_zero)->value == Approx(0.02238155).epsilon(1e-6));
  CHECK_FALSE(lists(e, {name::edge_growth, name::caliper_zero}));
  CHECK(lists(e, {name::edge_growth, name::caliper_zero, name::inside_bias}));
}

TEST_CASE("estimate: without noise every parameter comes back") {
  Truth t = quiet_truth();
  t.caliper_zero_mm = 0.02;
  t.inside_bias_mm = 0.015;
  t.peg_p0_mm = 0.1;
  t.peg_p1_mm2 = 0.05;
  t.flare_mm = 0.12;
  t.features.push_back({"Z00", Kind::zero, Axis::n, {0}, "", ""});
  t.features.push_back({"R3", Kind::ring, Axis::n, {3}, "", ""});
  t.features.push_back({"R20", Kind::ring, Axis::n, {20}, "", ""});
  t.features.push_back({"B20", Kind::foot, Axis::x, {20}, "", ""});
  for (int copies : {1, 2, 3}) {
    t.copies = copies;
    const Estimates e = estimate(simulate(t, 1)).value();
    INFO("copies " << copies);
    const auto near = [&](const char* parameter, double wanted, double margin) {
      INFO(parameter);
      REQUIRE(e.find(parameter));
      CHECK(e.find(parameter)->value == Approx(wanted).margin(margin));
    };
    near(name::scale_x, t.scale.x, 2e-6);
    near(name::scale_y, t.scale.y, 2e-6);
    near(name::scale_z, t.scale.z, 2e-6);
    near(name::edge_growth, t.edge_growth_mm, 1e-5);
    near(name::z0, t.z0_mm, 1e-5);
    near(name::flare, 0.12, 1e-4);
    near(name::caliper_zero, 0.02, 1e-9);
    near(name::inside_bias, 0.015, 1e-3);
    near(name::skew_xy, t.skew_rad, 1e-5);  // readings come rounded to 0.001 mm: 0.0005 sqrt(2) / 84.85
    // Steel carries its own uncertainty, so the weak priors pull a little even on perfect readings.
    near(name::hole_c0, t.hole_c0_mm, 2e-3);
    near(name::hole_c1, t.hole_c1_mm2, 1e-2);
  }
}

TEST_CASE("estimate: a turned copy is relabelled to the machine's axes") {
  Truth t = quiet_truth();
  t.copies = 2;
  t.turned_deg = {0, 90};
  const Estimates e = estimate(simulate(t, 3)).value();
  CHECK(e.find(name::scale_x)->value == Approx(t.scale.x).margin(1e-6));
  CHECK(e.find(name::scale_y)->value == Approx(t.scale.y).margin(1e-6));
  CHECK(e.find(name::skew_xy)->value == Approx(t.skew_rad).margin(1e-5));
}

TEST_CASE("estimate: shared faces and missing cells give nearly the same answer as the closed form") {
  Truth t = default_truth();
  t.copies = 3;
  ReadingSet whole = simulate(t, 11);
  const Estimates closed = estimate(whole).value();
  ReadingSet holed = whole;  // one place of one copy is lost
  holed.rows.erase(std::remove_if(holed.rows.begin(), holed.rows.end(),
                                  [](const Reading& r) { return r.feature.id == "X20" && r.copy == 2; }),
                   holed.rows.end());
  const Estimates reml = estimate(holed).value();
  CHECK(reml.method.find("REML") != std::string::npos);
  for (const Parameter& p : closed.parameters) {
    const Parameter* q = reml.find(p.name);
    INFO(p.name);
    REQUIRE(q);
    CHECK(std::abs(q->value - p.value) < 0.5 * p.u);
    CHECK(q->u == Approx(p.u).epsilon(0.5));
  }
}

TEST_CASE("estimate: a slip is set aside and told, or kept on request") {
  Truth t = default_truth();
  ReadingSet set = simulate(t, 5);
  const Estimates clean = estimate(set).value();
  const auto at =
      std::find_if(set.rows.begin(), set.rows.end(), [](const Reading& r) { return r.feature.id == "X80"; });
  at->reading_mm *= 10;
  const Estimates aside = estimate(set).value();
  REQUIRE(aside.suspects.size() == 1);
  CHECK_FALSE(aside.suspects[0].used);
  CHECK(aside.counts.set_aside == 1);
  CHECK(aside.find(name::scale_x)->value == Approx(clean.find(name::scale_x)->value).margin(2e-4));
  EstimateOptions keep;
  keep.set_suspects_aside = false;
  const Estimates kept = estimate(set, keep).value();
  CHECK(kept.suspects[0].used);
  CHECK(std::abs(kept.find(name::scale_x)->value) > 0.1);  // one shifted decimal point ruins it: hence the gate
}

TEST_CASE("estimate: the true size of a gauge, and an unknown one") {
  ReadingSet set = outsides({{10, 10.13}, {20, 20.08}, {40, 40.03}, {80, 79.85}});
  set.rows.push_back(reading("G10", Kind::gauge, Axis::n, 10, 10.02));
  EstimateOptions o;
  o.true_size_mm["G10"] = 10.01;
  CHECK(estimate(set, o).value().find(name::caliper_zero)->value == Approx(0.01));
  o.true_size_mm["G11"] = 11;
  const auto refused = estimate(set, o);
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.problems()[0].code == Code::usage);
}

TEST_CASE("estimate: walls of another bead width are told but not pooled") {
  ReadingSet set = outsides({{10, 10.13}, {20, 20.08}, {40, 40.03}, {80, 79.85}});
  for (int k = 0; k < 4; ++k) {
    set.rows.push_back(reading("W45" + std::to_string(k), Kind::wall, Axis::n, 0.45, 0.47 + 0.01 * (k % 2)));
    set.rows.push_back(reading("W90" + std::to_string(k), Kind::wall, Axis::n, 0.9, 0.95));
  }
  set.rows.push_back(reading("Z0", Kind::zero, Axis::n, 0, 0.0));
  const Estimates e = estimate(set).value();
  CHECK(e.find(name::wall)->value == Approx(0.475));
  CHECK(e.cells.size() == 12);
}

TEST_CASE("estimate: one place without repeats still ends in an answer or a clear refusal") {
  const auto one = estimate(outsides({{20, 20.1}}));
  REQUIRE(one.ok());  // the sum is told
  CHECK(one->parameters.size() <= 1);
  CHECK_FALSE(one->combinations.empty());
  const auto none = estimate(ReadingSet{});
  REQUIRE_FALSE(none.ok());
  CHECK(none.problems()[0].code == Code::unanswerable);
}
