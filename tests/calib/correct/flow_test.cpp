// Flow from walls and blocks, against worked values and published bead sections.
#include "correct/flow.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "correct/correction.hpp"
#include "correct/finding.hpp"
#include "correct/flow_evidence.hpp"
#include "hand_made.hpp"

using namespace fitwright;
using namespace fitwright::testing;

namespace {
Approx near(double value) { return Approx(value).epsilon(1e-6); }
}  // namespace

TEST_CASE("bead sections") {
  // Layer height, bead width, section; published bead formula (w - h) h + pi h^2 / 4, recomputed.
  const double table[][3] = {{0.2, 0.4, 0.071416}, {0.2, 0.45, 0.081416}, {0.2, 0.48, 0.087416},
                             {0.3, 0.6, 0.160686}, {0.1, 0.4, 0.037854},  {0.28, 0.42, 0.100775}};
  for (const auto& row : table) CHECK(bead_area_mm2(row[1], row[0]) == Approx(row[2]).margin(5.1e-7));
}

TEST_CASE("flow from one wall") {
  CHECK(bead_side_loss_mm(0.2) == near(0.042920367));
  CHECK(bead_area_mm2(0.45, 0.2) == near(0.081415927));
  const FlowTest test = flow_from_wall(1, 0.45, 0.47, 0.0135, 0.2);
  CHECK(test.flow_new == near(0.95317033));
  CHECK(test.u == near(0.030129743));
  CHECK_FALSE(test.worth_a_change());  // 4.7 % with an uncertainty of 3.0 %
  CHECK(wall_width_mm(0.45, 0.2, 1.01) - 0.45 == near(0.0040707963));
  CHECK(wall_width_mm(0.45, 0.2, test.ratio) == near(0.47));
}

TEST_CASE("flow from two walls of one bead each, drawn with two bead widths") {
  const FlowTest test = flow_from_two_walls(1, {0.45, 0.475, 0.007}, {0.9, 0.9386, 0.007});
  CHECK(test.ratio == near(1.0302222));
  CHECK(test.flow_new == near(0.97066437));
  CHECK(test.u == Approx(0.022 * 0.97).epsilon(0.05));  // 2.2 % of the real flow
  CHECK_FALSE(test.worth_a_change());
  CHECK(flow_from_two_walls(1, {0.45, 0.475, 0.002}, {0.9, 0.9386, 0.002}).worth_a_change());
  // A zero error of the caliper reads both alike and leaves the result as it is.
  CHECK(flow_from_two_walls(1, {0.45, 0.495, 0.007}, {0.9, 0.9586, 0.007}).ratio == near(test.ratio));
}

TEST_CASE("flow from a weighed block") {
  const FlowTest test = flow_from_block(0.98, 12.65, 10000, 1.24);
  CHECK(test.ratio == near(12.65 / 12.4));
  CHECK(test.flow_new == near(0.98 * 12.4 / 12.65));
  CHECK(test.u == near(0.01 * test.flow_new));
  CHECK(test.worth_a_change());
}

TEST_CASE("a weighed block is as large as it was sliced: size factor and outline offset count") {
  WeighedBlock block;
  block.volume_mm3 = 9000;
  block.side_mm = 30;
  CHECK(block.sliced_mm3(State{}) == near(9000));
  State state;
  state.size_factor = 1.005;
  CHECK(block.sliced_mm3(state) == near(9000 * 1.010025));
  state.outline_offset_mm = -0.1;
  CHECK(block.sliced_mm3(state) == near(9000 * (30.15 - 0.2) * (30.15 - 0.2) / 900));
  block.side_mm = 0;  // of a block that is not ours
  CHECK(block.sliced_mm3(state) == near(9000 * 1.010025));
}

TEST_CASE("flow by weight: the uncertainty of density and scale together") {
  WeighedBlock block;
  block.mass_g = 11.5;
  block.volume_mm3 = 9000;
  State state;
  state.flow = 0.97;
  const FlowTest test = flow_by_block(block, state);
  CHECK(test.ratio == near(11.5 / 11.16));
  CHECK(test.flow_new == near(0.97 * 11.16 / 11.5));
  CHECK(test.u / test.flow_new == near(std::hypot(0.01, 0.029 / 11.5)));
}

TEST_CASE("walls and a weighed block are averaged by 1/u^2, and told when they contradict") {
  // Two one-bead widths: ratio (0.9386 - 0.475) / 0.45 = 1.0302 as above; its u from the cells' scatter.
  Estimates e = lengths_of(0, 0, 0);
  e.scatter["feature_mm"] = 0.01;
  for (const char* side : {"a", "b", "c", "d"}) {
    add_cell(e, std::string("W45") + side, Kind::wall, Axis::n, 0.45, 0.475);
    add_cell(e, std::string("W90") + side, Kind::wall, Axis::n, 0.9, 0.9386);
  }
  const auto walls = flow_evidence(e, State{}, std::nullopt);
  REQUIRE(walls);
  CHECK(walls->test.ratio == near(1.0302222));
  WeighedBlock block;
  block.volume_mm3 = 9000;
  block.mass_g = 11.16 * 1.02;
  const FlowTest weight = flow_by_block(block, State{});
  const auto both = flow_evidence(e, State{}, block);
  REQUIRE(both);
  const auto u = [](const FlowTest& t) { return t.u / t.flow_new * t.ratio; };
  const double wa = 1 / (u(walls->test) * u(walls->test)), wb = 1 / (u(weight) * u(weight));
  CHECK(both->test.ratio == near((wa * 1.0302222 + wb * 1.02) / (wa + wb)));
  CHECK(u(both->test) == near(1 / std::sqrt(wa + wb)));
  CHECK(both->test.flow_new == near(1 / both->test.ratio));
  CHECK_FALSE(both->contradicts);

  block.mass_g = 11.16 * 0.8;  // printed hollow
  const auto odd = flow_evidence(e, State{}, block);
  REQUIRE(odd);
  CHECK(odd->contradicts);
  CorrectOptions options;
  options.block = block;
  const auto c = correct(e, State{}, options);
  REQUIRE(c.ok());
  CHECK(c->after.flow == 1);
}

TEST_CASE("a weighed block alone sets the flow when it is off by more than twice its uncertainty") {
  const Estimates e = lengths_of(0, 0, 0.05);
  CorrectOptions options;
  options.block = WeighedBlock{11.16 * 1.06, 9000, 30, 1.24, 0.0124};
  const auto c = correct(e, State{}, options);
  REQUIRE(c.ok());
  CHECK(c->after.flow == near(1 / 1.06));
  const auto change =
      std::find_if(c->changes.begin(), c->changes.end(), [](const Change& k) { return k.knob == "flow"; });
  REQUIRE(change != c->changes.end());
  CHECK(change->because.find("weighed block holds 6.00 % more plastic") != std::string::npos);
  // What flow takes from the edges is not taken once more by the offset: beta is 0.4 mm per unit of flow.
  CHECK(c->after.outline_offset_mm == Approx(-(0.05 + 0.4 * (1 / 1.06 - 1))).epsilon(1e-6));
  bool told = false;
  for (const std::string& caution : c->cautions) told = told || caution.find("printed solid") != std::string::npos;
  CHECK(told);

  options.block->mass_g = 11.16 * 1.015;  // 1.5 % with an uncertainty of 1 %
  CHECK(correct(e, State{}, options)->after.flow == 1);
  options.block->mass_g = 11.16 * 0.7;  // not solid
  const auto hollow = correct(e, State{}, options);
  CHECK(hollow->after.flow == 1);

  FindingOptions wanted;
  wanted.block = WeighedBlock{11.16 * 1.06, 9000, 30, 1.24, 0.0124};
  const auto found = findings(e, {}, wanted);
  const auto flow = std::find_if(found.begin(), found.end(), [](const Finding& f) { return f.id == "flow"; });
  REQUIRE(flow != found.end());
  CHECK(flow->severity == Severity::act);
  CHECK(flow->text.starts_with("The weighed block holds 6.00 % more plastic than asked for"));
  CHECK(flow->because.find("11.16 g by volume") != std::string::npos);
}

TEST_CASE("what flow does to an edge") {
  const EdgeGain gain = edge_gain(0.45, 0.2);
  CHECK(gain.least_mm == near(0.40707963 / 2));
  CHECK(gain.most_mm == near(0.40707963));
  CHECK(gain.u_mm() == near(0.40707963 / 2 / 3.4641016));
}
