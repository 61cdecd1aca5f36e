// The algebra of corrections against worked values (docs/mathematics.md, section on corrections) and forward physics.
#include "correct/algebra.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace fitwright;

namespace {

constexpr double tolerance = 1e-6;  // the worked values' digits

Approx near(double value) { return Approx(value).epsilon(tolerance).margin(1e-12); }

/// Settings in the middle of use, so that no term of the algebra is idle. Steps are 1, so that ratios show as they are.
State worked_state() {
  State s;
  s.size_factor = 1.002;
  s.outline_offset_mm = -0.05;
  s.flow = 0.98;
  s.steps_per_mm = {1, 1, 1, 1};
  s.flow_edge_gain_mm = 0.4;
  return s;
}

const PlanarFit worked_fit{-0.0035, -0.0015, 0.03};

State with_edge(State after) {
  after.outline_offset_mm = outline_offset_for(worked_state(), after, worked_fit);
  return after;
}

}  // namespace

TEST_CASE("steps from the outside of one small cube spoil longer parts") {
  // A 20 mm cube read 20.16 because each edge stands out by 0.08; its scale is right.
  const double ratio = 20 / 20.16;
  CHECK(ratio == near(0.99206349));
  const State before;
  State after = before;
  after.steps_per_mm.x *= ratio;
  const PlanarOutcome lengths = outcome(before, after, {0, 0, 0.08});
  CHECK(lengths.gain_x - 1 == near(-0.0079365079));
  CHECK(100 * lengths.gain_x + 2 * lengths.edge_x_mm == near(99.366349));
  CHECK(200 * lengths.gain_x + 2 * lengths.edge_x_mm == near(198.5727));
  CHECK(100 * lengths.gain_x + 2 * lengths.edge_x_mm - 100 == near(-0.63365079));
}

TEST_CASE("worked corrections of the policies") {
  SECTION("shrink") {
    const State s = with_edge(shrink_scaled(worked_state(), worked_fit));
    CHECK(s.size_factor == near(1.0045118));
    CHECK(s.outline_offset_mm == near(-0.080135353));
    CHECK(s.steps_per_mm.x == near(1.001003));
    CHECK(s.steps_per_mm.y == near(0.998998));
    CHECK(s.flow == 0.98);
  }
  SECTION("steps") {
    const State s = with_edge(steps_scaled(worked_state(), worked_fit));
    CHECK(s.size_factor == 1.002);
    CHECK(s.outline_offset_mm == near(-0.079934975));
    CHECK(s.steps_per_mm.x == near(1.0035123));
    CHECK(s.steps_per_mm.y == near(1.0015023));
  }
  SECTION("shrink, with the flow taken down by 2 %") {
    State s = shrink_scaled(worked_state(), worked_fit);
    s.flow = 0.9604;
    CHECK(outline_offset_for(worked_state(), s, worked_fit) == near(-0.0722599811));
  }
  SECTION("machine, with travel measured 0.1 % long on X and 0.05 % short on Y") {
    const State s = with_edge(machine_scaled(worked_state(), worked_fit, {0.001, -0.0005}));
    CHECK(s.size_factor == near(1.0047626));
    CHECK(s.outline_offset_mm == near(-0.080155365));
    CHECK(s.steps_per_mm.x == near(0.999001));
    CHECK(s.steps_per_mm.y == near(1.0005003));
  }
  SECTION("shrink only has the size factor of shrink") {
    const State s = shrink_only_scaled(worked_state(), worked_fit);
    CHECK(s.size_factor == near(1.0045118));
    CHECK(s.steps_per_mm.x == 1);
  }
}

TEST_CASE("flow that would take the edge growth instead of an outline offset") {
  const State before = worked_state();
  const auto flow = flow_for_edge(before, worked_fit);
  REQUIRE(flow);
  State after = shrink_scaled(before, worked_fit);
  after.flow = *flow;
  CHECK(outline_offset_for(before, after, worked_fit) == Approx(0).margin(1e-15));
  State without_gain = before;
  without_gain.flow_edge_gain_mm = 0;
  CHECK_FALSE(flow_for_edge(without_gain, worked_fit));
}

TEST_CASE("hole sizes to draw when lengths are right") {
  const RoundLaw law{0.06, 0.15, 0};
  const double target[] = {2, 3, 3.3, 5, 8, 20};
  const double drawn[] = {2.130409, 3.1082585, 3.404065, 5.0894726, 8.0785676, 20.067475};
  for (int i = 0; i < 6; ++i) {
    const auto d = hole_to_draw(target[i], {}, law);
    REQUIRE(d);
    CHECK(*d == near(drawn[i]));
    CHECK(hole_as_printed(*d, {}, law) == Approx(target[i]).margin(1e-12));
  }
}

TEST_CASE("sizes to draw in any state") {
  const RoundLaw hole{0.06, 0.15, 32};
  const RoundLaw peg{0.12, 0.05, 32};
  SECTION("settings unchanged") {
    const PlanarOutcome lengths = outcome(worked_state(), worked_state(), worked_fit);
    CHECK(lengths.edge_mm == near(0.03));
    CHECK(*hole_to_draw(5, lengths, hole) == near(5.186862533538004));
    CHECK(*peg_to_draw(5, lengths, peg) == near(5.107150396413683));
    CHECK(slot_to_draw(5, lengths.gain_x, lengths.edge_mm) == near(5.0777722027094825));
    CHECK(tab_to_draw(5, lengths.gain_x, lengths.edge_mm) == near(4.957350727546412));
  }
  SECTION("settings of the shrink policy, as rounded on the screen") {
    State after = worked_state();
    after.size_factor = 1.0045118;
    after.outline_offset_mm = -0.080135353;
    after.steps_per_mm.x = 1.001003;
    after.steps_per_mm.y = 0.998998;
    const PlanarOutcome lengths = outcome(worked_state(), after, worked_fit);
    CHECK(lengths.edge_mm == Approx(0).margin(1e-9));
    CHECK(*hole_to_draw(5, lengths, hole) == near(5.1139565228496195));
    CHECK(*peg_to_draw(5, lengths, peg) == near(5.154520572775711));
    CHECK(slot_to_draw(5, lengths.gain_x, lengths.edge_mm) == near(4.999999962966478));
    CHECK(tab_to_draw(5, lengths.gain_x, lengths.edge_mm) == near(4.9999999602198875));
  }
  SECTION("what is drawn comes out as wanted") {
    const PlanarOutcome lengths = outcome(worked_state(), worked_state(), worked_fit);
    for (const double target : {2.0, 5.0, 12.5, 40.0}) {
      CHECK(hole_as_printed(*hole_to_draw(target, lengths, hole), lengths, hole) == Approx(target).margin(1e-12));
      CHECK(peg_as_printed(*peg_to_draw(target, lengths, peg), lengths, peg) == Approx(target).margin(1e-12));
    }
  }
  SECTION("no drawn size gives a peg that small") { CHECK_FALSE(peg_to_draw(0.01, {}, {0, -10, 0})); }
}

TEST_CASE("a polygon inside its circle is smaller over its flats") {
  CHECK(10 * facet_loss(32) == Approx(0.0482).margin(5e-5));
  CHECK(10 * facet_loss(64) == Approx(0.0120).margin(5e-5));
  CHECK(10 * facet_loss(128) == Approx(0.0030).margin(5e-5));
  CHECK(facet_loss(0) == 0);
}

TEST_CASE("a height scaled in the model is rounded to whole layers") {
  const double height[] = {20, 40, 100};
  const int layers[] = {100, 201, 502};
  const double printed[] = {19.94, 40.0794, 100.0988};
  for (int i = 0; i < 3; ++i) {
    const LayerCount c = whole_layers(height[i], 0.2, -0.003);
    CHECK(c.layers == layers[i]);
    CHECK(c.printed_height_mm == near(printed[i]));
  }
}

TEST_CASE("other materials keep their lengths when the machine's steps change") {
  State material;
  material.size_factor = 1.006;
  material.outline_offset_mm = -0.04;
  const auto moved = reexpressed(material, 1.002, 1.004);
  CHECK_FALSE(moved.stale);
  CHECK(moved.state.size_factor * std::sqrt(1.002 * 1.004) == near(1.006));
  CHECK(moved.state.outline_offset_mm * std::sqrt(1.002 * 1.004) == near(-0.04));
  CHECK(reexpressed(State{}, 1.002, 1.004).stale);
  CHECK(reexpressed(State{}, 1.002, 1.004).state.size_factor == 1.0);
}
