// Flow from walls and blocks, against worked values and published bead sections.
#include "correct/flow.hpp"

#include <catch2/catch.hpp>

using namespace fitwright;

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

TEST_CASE("what flow does to an edge") {
  const EdgeGain gain = edge_gain(0.45, 0.2);
  CHECK(gain.least_mm == near(0.40707963 / 2));
  CHECK(gain.most_mm == near(0.40707963));
  CHECK(gain.u_mm() == near(0.40707963 / 2 / 3.4641016));
}
