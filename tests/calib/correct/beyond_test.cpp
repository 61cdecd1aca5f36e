// What no reading shows: temperature of the part and jaw force.

#include "correct/beyond.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "correct/correction.hpp"
#include "hand_made.hpp"
#include "stats/intervals.hpp"

using namespace fitwright;
using namespace fitwright::testing;

namespace {

Reading read_at(std::optional<double> part_c, Kind kind = Kind::outer) {
  Reading r;
  r.feature.kind = kind;
  r.part_c = part_c;
  return r;
}

double u_of(const std::vector<BeyondReadings>& effects, const std::string& parameter) {
  for (const BeyondReadings& e : effects)
    if (e.parameter == parameter) return e.u;
  return 0;
}

}  // namespace

TEST_CASE("a part 3 K off room temperature is 0.02 mm off on 100 mm; a jaw force 2 N off moves an edge by 7 um") {
  const Estimates e = hand_made({{name::scale_x, 0, 1e-4}, {name::edge_growth, 0, 0.01}, {name::z0, 0, 0.01}});
  const auto effects = beyond_readings(e, {});
  REQUIRE(effects.size() == 3);
  CHECK(effects[0].cause == "temperature of the part");
  CHECK(effects[0].how_much == "3 K");
  CHECK(effects[0].unit == "1");
  CHECK(u_of(effects, name::scale_x) == Approx(7e-5 * 3));
  CHECK(u_of(effects, name::scale_x) * 100 == Approx(0.021));
  CHECK(u_of(effects, name::edge_growth) == Approx(2 * 0.007 / 2));  // both edges of an outside: 2 N x 0.007 mm/N
  CHECK(u_of(effects, name::z0) == Approx(2 * 0.007));
  CHECK(u_of(effects, name::scale_y) == 0);  // was not estimated
}

TEST_CASE("a temperature that was read counts instead of the room's") {
  const Estimates e = hand_made({{name::scale_x, 0, 1e-4}});
  ReadingSet set;
  set.rows = {read_at(20), read_at(20.5), read_at({}, Kind::zero)};  // steel needs none
  CHECK(u_of(beyond_readings(e, set), name::scale_x) == Approx(7e-5 * std::hypot(0.5, 1)));
  set.rows[1].part_c = 32;
  CHECK(u_of(beyond_readings(e, set), name::scale_x) == Approx(7e-5 * std::hypot(12, 1)));
  CHECK(farthest_off_reference_k(set).value() == Approx(12));
  set.rows[1].part_c = 18;
  CHECK(farthest_off_reference_k(set).value() == Approx(-2));
  set.rows.push_back(read_at({}));  // one part's temperature is not known
  CHECK(u_of(beyond_readings(e, set), name::scale_x) == Approx(7e-5 * 3));
  set.rows[1].part_c = 35;
  CHECK(u_of(beyond_readings(e, set), name::scale_x) == Approx(7e-5 * 15));
}

TEST_CASE("one warm part is long along all axes: within a cause effects add, causes are independent") {
  const Estimates e = hand_made({{name::scale_x, 0, 1e-4}, {name::scale_y, 0, 1e-4}, {name::edge_growth, 0, 0.01}});
  const auto effects = beyond_readings(e, {});
  CHECK(u_beyond(effects, {{name::scale_x, 50}, {name::scale_y, 50}}) == Approx(0.021));
  CHECK(u_beyond(effects, {{name::scale_x, 1}, {name::scale_y, -1}}) == Approx(0).margin(1e-12));
  CHECK(u_beyond(effects, {{name::scale_x, 100}, {name::edge_growth, 2}}) == Approx(std::hypot(0.021, 0.014)));
}

TEST_CASE("what remains tells its interval, and its uncertainty with the surroundings") {
  const Estimates e = lengths_of(-0.003, -0.003, 0.08, 0.0004, 0.011);
  const auto c = correct(e, State{});
  REQUIRE(c.ok());
  const Remains& x = c->remains_mm.at("x100");
  CHECK(x.upper - x.value == Approx(coverage_factor(0.95, 10) * x.u));
  CHECK(x.value - x.lower == Approx(coverage_factor(0.95, 10) * x.u));
  const double on_scale = (100 - 0.16) / 0.997;  // the new offset lies on the printed length
  const double beyond = std::hypot(on_scale * 7e-5 * 3, 2 * 0.007);
  CHECK(x.u_with_surroundings == Approx(std::hypot(x.u, beyond)).epsilon(1e-4));
  CHECK(2 * x.half_with_surroundings_mm > x.upper - x.lower);
  // Welch and Satterthwaite: 10 degrees of freedom for the readings' part, the other is taken as certain.
  const double df = 10 * std::pow(x.u_with_surroundings / x.u, 4);
  CHECK(x.half_with_surroundings_mm == Approx(coverage_factor(0.95, df) * x.u_with_surroundings).epsilon(1e-4));
  // A slot of 20 mm: both effects again, the edges with the other sign.
  const Remains& slot = c->remains_mm.at("slot_x20");
  CHECK(slot.u_with_surroundings ==
        Approx(std::hypot(slot.u, (20 + 0.16) / 0.997 * 7e-5 * 3, 2 * 0.007)).epsilon(1e-4));
}

TEST_CASE("scatter between copies that was assumed widens what remains, as it does the estimates") {
  Estimates e = lengths_of(-0.003, -0.003, 0.08, 0.0004, 0.011);
  UncertaintyPart part{e.covariance, Eigen::VectorXd::Constant(3, 4.0), false, true};
  e.parts = {part};
  const auto c = correct(e, State{});
  REQUIRE(c.ok());
  const Remains& x = c->remains_mm.at("x100");
  CHECK(x.upper - x.value == Approx(coverage_factor(0.95, 4) * x.u).epsilon(1e-5));  // all of it assumed: Student's
}

TEST_CASE("temperatures that were read take part in what remains") {
  const Estimates e = lengths_of(-0.003, -0.003, 0.08, 0.0004, 0.011);
  CorrectOptions options;
  ReadingSet set;
  set.rows = {read_at(20)};
  options.beyond = beyond_readings(e, set);
  const double known = correct(e, State{}, options)->remains_mm.at("x100").u_with_surroundings;
  const double assumed = correct(e, State{})->remains_mm.at("x100").u_with_surroundings;
  CHECK(known < assumed);
  options.beyond = std::vector<BeyondReadings>{};
  const auto none = correct(e, State{}, options);
  CHECK(none->remains_mm.at("x100").u_with_surroundings == Approx(none->remains_mm.at("x100").u));
}

TEST_CASE("no scatter known: no interval of what remains, and no number in its place") {
  Estimates e = lengths_of(-0.003, -0.003, 0.08);
  for (Parameter& p : e.parameters) {
    p.u = p.lower = p.upper = std::nan("");
    p.established = true;
  }
  e.covariance.setConstant(std::nan(""));
  const auto c = correct(e, State{});
  REQUIRE(c.ok());
  for (const auto& [place, r] : c->remains_mm) {
    CHECK(std::isnan(r.u));
    CHECK(std::isnan(r.upper));
    CHECK(std::isnan(r.u_with_surroundings));
  }
}
