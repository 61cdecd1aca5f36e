// Corrections: the loop closes on forward physics, nothing is turned without need, and what remains is announced.
#include "correct/correction.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "correct/algebra.hpp"
#include "correcting.hpp"
#include "hand_made.hpp"

using namespace fitwright;
using namespace fitwright::testing;

namespace {

/// A printer and a plastic, as they really are.
struct Reality {
  double shrink = 0.004;
  double machine_x = 0, machine_y = 0;  ///< travelled / commanded - 1 with the steps of `reference`
  double raw_edge_mm = 0.08;            ///< at the flow of `reference`
  double edge_gain_mm = 0.4;
  State reference;

  [[nodiscard]] double gain(const State& s, bool along_x) const {
    const double mu =
        along_x ? s.steps_per_mm.x / reference.steps_per_mm.x : s.steps_per_mm.y / reference.steps_per_mm.y;
    return (1 - shrink) * (1 + (along_x ? machine_x : machine_y)) * mu;
  }
  [[nodiscard]] double edge(const State& s) const { return raw_edge_mm + edge_gain_mm * (s.flow - reference.flow); }
  [[nodiscard]] double outside(const State& s, bool along_x, double length_mm) const {
    return gain(s, along_x) * (s.size_factor * length_mm + 2 * s.outline_offset_mm) + 2 * edge(s);
  }
  [[nodiscard]] double slot(const State& s, bool along_x, double length_mm) const {
    return gain(s, along_x) * (s.size_factor * length_mm - 2 * s.outline_offset_mm) - 2 * edge(s);
  }
  /// What readings without error give for a coupon printed in state s.
  [[nodiscard]] PlanarFit fit(const State& s) const {
    const double qx = gain(s, true) * s.size_factor;
    const double qy = gain(s, false) * s.size_factor;
    return {qx - 1, qy - 1, edge(s) + s.outline_offset_mm * std::sqrt(qx * qy) / s.size_factor};
  }
};

struct Case {
  Reality reality;
  State state;
};

Case random_case(std::mt19937& random) {
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  Case c;
  c.reality.shrink = between(0.001, 0.02);
  c.reality.machine_x = between(-0.006, 0.006);
  c.reality.machine_y = between(-0.006, 0.006);
  c.reality.raw_edge_mm = between(0.05, 0.2);
  c.reality.edge_gain_mm = 0.4;
  c.state.size_factor = between(0.99, 1.02);
  c.state.outline_offset_mm = between(-0.02, 0.02);
  c.state.flow = between(0.9, 1.1);
  c.state.steps_per_mm.x = 80 * between(0.99, 1.01);
  c.state.steps_per_mm.y = 80 * between(0.99, 1.01);
  c.reality.reference = c.state;
  return c;
}

/// All but exact estimates: everything in them is established.
Estimates exact(const PlanarFit& fit) { return lengths_of(fit.scale_x, fit.scale_y, fit.edge_growth_mm, 1e-9, 1e-9); }

}  // namespace

TEST_CASE("an exact fit corrected and printed again is right, or off by what was announced") {
  std::mt19937 random(20261125);
  for (int n = 0; n < 300; ++n) {
    const Case c = random_case(random);
    const Estimates e = exact(c.reality.fit(c.state));
    CorrectOptions options;
    options.tolerance_mm = 1e-9;  // so that everything matters
    options.travel['x'] = {200, 200 * (1 + c.reality.machine_x), 1e-6};
    options.travel['y'] = {200, 200 * (1 + c.reality.machine_y), 1e-6};
    for (const Policy policy : {Policy::shrink, Policy::steps, Policy::machine, Policy::shrink_only}) {
      options.policy = policy;
      const Correction k = corrected(e, c.state, options);
      const double x100 = c.reality.outside(k.after, true, 100) - 100;
      const double y100 = c.reality.outside(k.after, false, 100) - 100;
      const double slot = c.reality.slot(k.after, true, 20) - 20;
      INFO(n << " " << word(policy));
      CHECK(x100 == Approx(k.remains_mm.at("x100").value).margin(1e-9));
      CHECK(y100 == Approx(k.remains_mm.at("y100").value).margin(1e-9));
      CHECK(slot == Approx(k.remains_mm.at("slot_x20").value).margin(1e-9));
      if (policy == Policy::shrink || policy == Policy::steps) {
        CHECK(std::abs(x100) < 1e-9);
        CHECK(std::abs(y100) < 1e-9);
        CHECK(std::abs(slot) < 1e-9);
        CHECK(k.invariant_x == Approx(1).margin(1e-12));
        CHECK(k.invariant_y == Approx(1).margin(1e-12));
      } else {
        CHECK(k.invariant_x * k.invariant_y == Approx(1).margin(1e-12));
      }
      CHECK(k.after.flow == c.state.flow);
    }
  }
}

TEST_CASE("worked corrections come out of the whole path") {
  State s;
  s.size_factor = 1.002;
  s.outline_offset_mm = -0.05;
  s.flow = 0.98;
  const Estimates e = lengths_of(-0.0035, -0.0015, 0.03, 0.0002, 0.005);
  const Correction shrink = corrected(e, s, with(Policy::shrink));
  CHECK(shrink.after.size_factor == Approx(1.0045118).epsilon(1e-6));
  CHECK(shrink.after.outline_offset_mm == Approx(-0.080135353).epsilon(1e-6));
  CHECK(shrink.after.steps_per_mm.x == Approx(80 * 1.001003).epsilon(1e-6));
  CHECK(shrink.after.steps_per_mm.y == Approx(80 * 0.998998).epsilon(1e-6));
  const Correction steps = corrected(e, s, with(Policy::steps));
  CHECK(steps.after.size_factor == 1.002);
  CHECK(steps.after.steps_per_mm.x == Approx(80 * 1.0035123).epsilon(1e-6));
  CHECK(steps.after.outline_offset_mm == Approx(-0.079934975).epsilon(1e-6));
  CorrectOptions machine = with(Policy::machine);
  machine.tolerance_mm = 0.01;
  machine.travel['x'] = {200, 200.2, 0.02};
  machine.travel['y'] = {200, 199.9, 0.02};
  const Correction m = corrected(e, s, machine);
  CHECK(m.after.size_factor == Approx(1.0047626).epsilon(1e-6));
  CHECK(m.after.outline_offset_mm == Approx(-0.080155365).epsilon(1e-6));
  CHECK(m.after.steps_per_mm.x == Approx(80 * 0.999001).epsilon(1e-6));
  CHECK(m.after.steps_per_mm.y == Approx(80 * 1.0005003).epsilon(1e-6));
  CHECK(m.remains_mm.at("x100").value == Approx(-m.remains_mm.at("y100").value).margin(5e-4));
}

TEST_CASE("uncertainty of new settings and of what remains") {
  Estimates e = lengths_of(-0.003, -0.003, 0.08, 0.0004, 0.011);
  SECTION("independent") {
    const Correction c = corrected(e, {}, with(Policy::shrink));
    const Change* size = change_of(c, "size_factor");
    REQUIRE(size);
    CHECK(size->u == Approx(0.0004 / std::sqrt(2.0) / 0.997 / 0.997).epsilon(1e-4));
    CHECK(change_of(c, "outline_offset_mm")->u == Approx(0.011 / 0.997).epsilon(1e-3));
    // The offset lies on the printed length, so that X' = -0.08 per edge shortens what the scale acts on by 0.16.
    const double u100 = std::hypot((100 - 0.16) * 0.0004 / 0.997, 2 * 0.011);
    CHECK(c.remains_mm.at("x100").u == Approx(u100).epsilon(1e-5));
    CHECK(c.remains_mm.at("x100").df == Approx(10));
    CHECK(c.remains_mm.at("slot_x20").u == Approx(std::hypot((20 + 0.16) * 0.0004 / 0.997, 2 * 0.011)).epsilon(1e-5));
  }
  SECTION("covariance takes part") {
    correlate(e, name::scale_x, name::edge_growth, -0.5);
    const Correction c = corrected(e, {}, with(Policy::shrink));
    const double a = (100 - 0.16) * 0.0004 / 0.997;
    const double b = 2 * 0.011;
    CHECK(c.remains_mm.at("x100").u == Approx(std::sqrt(a * a + b * b - a * b)).epsilon(1e-5));
  }
  SECTION("steps by difference") {
    Estimates d = lengths_of(-0.004, -0.002, 0.08, 0.0004, 0.011);
    correlate(d, name::scale_x, name::scale_y, 0.6);
    const Correction c = corrected(d, {}, with(Policy::shrink));
    const double u_difference = 0.0004 * std::sqrt(2 * (1 - 0.6));
    CHECK(change_of(c, "steps_per_mm.x")->u == Approx(80 * u_difference / 2 / 0.996).epsilon(1e-4));
  }
}

TEST_CASE("what each knob does to outside lengths") {
  const Correction c = corrected(lengths_of(-0.004, -0.002, 0.08), {}, with(Policy::shrink));
  CHECK(change_of(c, "size_factor")->effect_mm.at(100) == Approx(0.3).epsilon(1e-2));
  CHECK(change_of(c, "size_factor")->effect_mm.at(200) == Approx(0.6).epsilon(1e-2));
  CHECK(change_of(c, "steps_per_mm.x")->effect_mm.at(100) == Approx(0.1).epsilon(1e-2));
  CHECK(change_of(c, "steps_per_mm.y")->effect_mm.at(20) == Approx(-0.02).epsilon(1e-2));
  CHECK(change_of(c, "outline_offset_mm")->effect_mm.at(20) == Approx(-0.16).epsilon(1e-2));
  CHECK(change_of(c, "outline_offset_mm")->effect_mm.at(200) == Approx(-0.16).epsilon(1e-2));
  for (const Change& change : c.changes) {
    CHECK(change.established);
    CHECK(!change.because.empty());
    CHECK(change.u > 0);
  }
}

TEST_CASE("what X and Y share and what they differ by are judged apart") {
  SECTION("both short alike: the plastic, and the steps stay to the last bit") {
    const Correction c = corrected(lengths_of(-0.0041, -0.0039, 0.08), {}, with(Policy::shrink));
    CHECK(c.after.steps_per_mm.x == c.before.steps_per_mm.x);
    CHECK(c.after.steps_per_mm.y == c.before.steps_per_mm.y);
    CHECK(c.after.size_factor == Approx(1 / 0.996).epsilon(1e-6));
    CHECK(has(reason(c, "steps_per_mm.y"), "difference between X and Y"));
  }
  SECTION("only the difference is established") {
    Estimates e = lengths_of(-0.0012, 0.0012, 0.08, 0.001);
    correlate(e, name::scale_x, name::scale_y, 0.95);
    const Correction c = corrected(e, {}, with(Policy::shrink));
    CHECK(c.after.size_factor == 1.0);
    CHECK(c.after.steps_per_mm.x == Approx(80 * 1.0012).epsilon(1e-5));
    CHECK(c.after.steps_per_mm.y == Approx(80 * 0.9988).epsilon(1e-5));
    CHECK(has(reason(c, "size_factor"), "not established"));
  }
  SECTION("steps policy turns both alike when only the mean is established") {
    const Correction c = corrected(lengths_of(-0.0011, -0.0007, 0.08, 0.0005), {}, with(Policy::steps));
    CHECK(c.after.steps_per_mm.x == c.after.steps_per_mm.y);
    CHECK(c.after.steps_per_mm.x == Approx(80 * 1.0009).epsilon(1e-6));
    CHECK(c.after.size_factor == 1.0);
    CHECK(has(reason(c, "size_factor"), "one error, one knob"));
  }
  SECTION("steps policy with one axis read") {
    Estimates e = hand_made({{name::scale_x, -0.003, 0.0003}, {name::edge_growth, 0.08, 0.01}});
    add_lengths(e, 100);
    const Correction c = corrected(e, {}, with(Policy::steps));
    CHECK(c.after.steps_per_mm.x == Approx(80 / 0.997));
    CHECK(c.after.steps_per_mm.y == 80);
    CHECK(has(reason(c, "steps_per_mm.y"), "no reading"));
    CHECK_FALSE(c.remains_mm.contains("y100"));
    CHECK(c.remains_mm.contains("slot_x20"));
  }
}

TEST_CASE("flow is changed by walls only, and then the edges are corrected for what it does to them") {
  Estimates e = lengths_of(-0.003, -0.003, 0.08);
  const auto add_walls = [&](double narrow_mm, double wide_mm, double scatter_mm) {
    for (int side = 0; side < 4; ++side) {
      const double off = scatter_mm * (side % 2 ? 1 : -1);
      add_cell(e, std::string("W45") + static_cast<char>('a' + side), Kind::wall, Axis::n, 0.45, narrow_mm + off);
      add_cell(e, std::string("W90") + static_cast<char>('a' + side), Kind::wall, Axis::n, 0.9, wide_mm - off);
    }
  };
  SECTION("not sure enough") {
    add_walls(0.475, 0.9386, 0.01);
    const Correction c = corrected(e, {}, with(Policy::shrink));
    CHECK(c.after.flow == 1);
    CHECK(has(reason(c, "flow"), "not sure enough"));
  }
  SECTION("sure") {
    add_walls(0.487, 0.982, 0.01);
    const Correction c = corrected(e, {}, with(Policy::shrink));
    const Change* flow = change_of(c, "flow");
    REQUIRE(flow);
    CHECK(flow->new_value == Approx(0.45 / 0.495));
    const double between_places = 0.01 * std::sqrt(8.0 / 6);  // four of each width, six degrees of freedom
    CHECK(flow->u == Approx(flow->new_value / 1.1 * between_places / std::sqrt(2.0) / 0.45));
    const double by_flow = 0.4 * (flow->new_value - 1);
    CHECK(c.after.outline_offset_mm == Approx(-(0.08 + by_flow) * c.after.size_factor));
    CHECK(std::abs(c.remains_mm.at("x100").value) < 1e-9);
    CHECK(flow->effect_mm.at(20) == Approx(2 * by_flow));
  }
  SECTION("one place of each width is as uncertain as any one place") {
    add_cell(e, "W45", Kind::wall, Axis::n, 0.45, 0.487);
    add_cell(e, "W90", Kind::wall, Axis::n, 0.9, 0.982);
    CHECK(corrected(e, {}, with(Policy::shrink)).after.flow == 1);
  }
  SECTION("so far off that it is no flow error") {
    for (const char* id : {"a", "b", "c", "d", "e"}) add_cell(e, id, Kind::wall, Axis::n, 0.45, 0.9);
    const Correction c = corrected(e, {}, with(Policy::shrink));
    CHECK(c.after.flow == 1);
    CHECK(has(reason(c, "flow"), "bead width"));
  }
}

TEST_CASE("heights") {
  Estimates e = hand_made({{name::scale_x, -0.003, 0.0003},
                           {name::scale_y, -0.003, 0.0003},
                           {name::edge_growth, 0.0, 0.01},
                           {name::scale_z, -0.004, 0.0005},
                           {name::z0, -0.09, 0.01}});
  add_lengths(e, 100);
  add_cell(e, "Z40", Kind::outer, Axis::z, 40, 39.8);
  const Correction c = corrected(e, {}, with(Policy::steps));
  CHECK(c.after.steps_per_mm.z == 400);
  CHECK(has(reason(c, "steps_per_mm.z"), "100 mm"));
  CHECK(c.after.z_offset_mm == Approx(0.09));  // the nozzle is lifted
  CHECK(change_of(c, "z_offset_mm")->effect_mm.at(200) == Approx(0.09));
  SECTION("a tall one turns Z under the steps policy, with the caution") {
    add_cell(e, "Z120", Kind::outer, Axis::z, 120, 119.5);
    const Correction tall = corrected(e, {}, with(Policy::steps));
    CHECK(tall.after.steps_per_mm.z == Approx(400 / 0.996));
    bool told = false;
    for (const auto& caution : tall.cautions) told = told || has(caution, "nozzle into the bed");
    CHECK(told);
    CHECK(corrected(e, {}, with(Policy::shrink)).after.steps_per_mm.z == 400);
  }
  SECTION("more than half a first layer is not the first layer") {
    e.parameters[4].value = -0.15;
    CHECK(corrected(e, {}, with(Policy::steps)).after.z_offset_mm == 0);
  }
}

TEST_CASE("cautions and what to type") {
  CorrectOptions o = with(Policy::steps);
  const Correction c = corrected(lengths_of(-0.004, -0.002, 0.0, 0.0003), {}, o);
  REQUIRE(c.commands.size() >= 4);
  CHECK(c.commands[0] == "M92 X80.3213 Y80.1603");
  CHECK(has(c.commands[1], "X times 0.996000, Y times 0.998000"));
  CHECK(has(c.commands[2], "lost at power-off"));
  CHECK(has(c.commands[3], "1.003010"));  // other materials
  CHECK(has(c.cautions[0], "M92 X80.0000 Y80.0000"));
  CHECK(has(c.cautions[0], "power switch"));
  SECTION("more than belts do") {
    const Correction far = corrected(lengths_of(-0.012, -0.012, 0.0, 0.0003), {}, o);
    REQUIRE(far.cautions.size() >= 3);
    CHECK(has(far.cautions[1], "leave the present value, 80.00, by 1.21 %"));
    o.drive['x'].belt_pitch_mm = 2;
    o.drive['x'].pulley_teeth = 20;
    CHECK(has(corrected(lengths_of(-0.012, -0.012, 0.0, 0.0003), {}, o).cautions[1], "motor, belt and pulley"));
  }
  SECTION("a travel that says the machine is right") {
    o.travel['x'] = {200, 200, 0.02};
    bool told = false;
    for (const auto& caution : corrected(lengths_of(-0.004, -0.002, 0.0, 0.0003), {}, o).cautions)
      told = told || has(caution, "every other material");
    CHECK(told);
  }
}

TEST_CASE("an error already taken out is not taken out again") {
  Reality r;
  r.reference = State{};
  State s;
  for (const Policy p : {Policy::shrink, Policy::steps}) {
    const Correction first = corrected(exact(r.fit(s)), s, with(p));
    CHECK_FALSE(first.changes.empty());
    const Correction second = corrected(exact(r.fit(first.after)), first.after, with(p));
    CHECK(second.changes.empty());
  }
}

TEST_CASE("words of the policies") {
  for (const Policy p : {Policy::shrink, Policy::steps, Policy::machine, Policy::shrink_only})
    CHECK(policy_from(word(p)) == p);
  CHECK_FALSE(policy_from("shrink_only"));
  CHECK(word(Policy::shrink_only) == "shrink-only");
}
