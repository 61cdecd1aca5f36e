// When a correction leaves knobs alone, or is refused altogether.
#include <catch2/catch.hpp>
#include <cmath>

#include "correct/correction.hpp"
#include "correcting.hpp"
#include "hand_made.hpp"

using namespace fitwright;
using namespace fitwright::testing;

TEST_CASE("nothing is turned for an error that is not established") {
  const Correction c = corrected(lengths_of(-0.0003, 0.0002, 0.01, 0.0003, 0.01), {}, with(Policy::shrink));
  CHECK(c.changes.empty());
  CHECK(to_json(c.after) == to_json(c.before));
  CHECK(has(reason(c, "size_factor"), "not established"));
  CHECK(has(reason(c, "steps_per_mm.x"), "not established"));
  CHECK(has(reason(c, "outline_offset_mm"), "not established"));
  CHECK(has(reason(c, "flow"), "no one-bead wall was read and no block weighed"));
  CHECK(c.commands.empty());
  CHECK(c.cautions.empty());
  // What is left is foretold all the same, with its uncertainty.
  CHECK(c.remains_mm.at("x100").value == Approx(-0.03 + 0.02).margin(1e-9));
  CHECK(c.remains_mm.at("x100").u == Approx(std::hypot(0.03, 0.02)).epsilon(1e-3));
}

TEST_CASE("nothing is turned for an error below what matters") {
  const Correction c = corrected(lengths_of(-0.00005, -0.00005, 0.004, 1e-6, 1e-4), {}, with(Policy::shrink));
  CHECK(c.changes.empty());
  CHECK(has(reason(c, "size_factor"), "below what matters"));
  CHECK(has(reason(c, "outline_offset_mm"), "below what matters"));
}

TEST_CASE("steps are not set from short lengths") {
  const Estimates e = lengths_of(-0.004, -0.002, 0.08, 0.0002, 0.01, 80);
  const Correction steps = corrected(e, {}, with(Policy::steps));
  CHECK(steps.after.steps_per_mm.x == 80);
  CHECK(has(reason(steps, "steps_per_mm.x"), "length of 100 mm"));
  CHECK(has(reason(steps, "steps_per_mm.x"), "80 mm"));
  CHECK(change_of(steps, "outline_offset_mm"));
  const Correction shrink = corrected(e, {}, with(Policy::shrink));
  CHECK(shrink.after.steps_per_mm.x == 80);
  CHECK(shrink.after.size_factor > 1.0029);
  SECTION("unless the travel was measured") {
    CorrectOptions o = with(Policy::steps);
    o.travel['x'] = {100, 99.6, {}};
    o.travel['y'] = {100, 99.8, {}};
    const Correction c = corrected(e, {}, o);
    CHECK(c.after.steps_per_mm.x == Approx(80 / 0.996));
    CHECK(c.after.steps_per_mm.y == Approx(80 / 0.998));
  }
  SECTION("or the caller knows of a longer one") {
    CorrectOptions o = with(Policy::steps);
    o.longest_mm = 150;
    CHECK(corrected(e, {}, o).after.steps_per_mm.x == Approx(80 / 0.996));
  }
}

TEST_CASE("the machine policy wants a measured travel") {
  const Estimates e = lengths_of(-0.004, -0.002, 0.08);
  const auto refused = correct(e, {}, with(Policy::machine));
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.problems()[0].code == Code::unanswerable);
  CHECK(has(refused.problems()[0].text(), "travel"));
  SECTION("a travel that agrees with the command leaves the steps") {
    CorrectOptions o = with(Policy::machine);
    o.travel['x'] = {100, 100.02, {}};
    const Correction c = corrected(e, {}, o);
    CHECK(c.after.steps_per_mm.x == 80);
    CHECK(has(reason(c, "steps_per_mm.x"), "not established"));
    CHECK(has(reason(c, "steps_per_mm.y"), "no travel was measured on Y"));
    CHECK(c.after.size_factor == Approx(1 / std::sqrt(0.996 * 0.998)));
  }
}

TEST_CASE("a travel that cannot be true is refused") {
  const Estimates e = lengths_of(-0.004, -0.002, 0.08);
  for (const Travel t : {Travel{-100, 99, {}}, Travel{100, -99, {}}, Travel{100, 0, {}}, Travel{0, 0, {}},
                         Travel{100, 50, {}}, Travel{100, 99.9, -1}, Travel{1, 1, {}}, Travel{100, NAN, {}}}) {
    CorrectOptions o = with(Policy::machine);
    o.travel['x'] = t;
    const auto r = correct(e, {}, o);
    INFO(t.commanded_mm << ":" << t.travelled_mm);
    REQUIRE_FALSE(r.ok());
    CHECK(r.problems()[0].code == Code::usage);
  }
}

TEST_CASE("readings that tell nothing cannot be corrected from") {
  const Estimates none;
  for (const Policy p : {Policy::shrink, Policy::steps, Policy::shrink_only}) {
    const auto r = correct(none, {}, with(p));
    REQUIRE_FALSE(r.ok());
    CHECK(r.problems()[0].code == Code::unanswerable);
  }
  Estimates cube;  // one length per axis
  cube.not_separable.push_back({{name::scale_x, name::edge_growth}, "one length per axis", "a second length"});
  const auto r = correct(cube, {}, with(Policy::steps));
  REQUIRE_FALSE(r.ok());
  CHECK(has(r.problems()[0].text(), "one length per axis"));
  CHECK(has(r.problems()[0].text(), "a second length"));
}

TEST_CASE("errors that no printer has are not corrected but asked about") {
  for (const Estimates& e : {lengths_of(-1.5, -0.002, 0.05), lengths_of(0.0, 24.4, 0.05), lengths_of(0.0, 0.0, 9.0)}) {
    const auto r = correct(e, {}, with(Policy::shrink));
    REQUIRE_FALSE(r.ok());
    CHECK(r.problems()[0].code == Code::unanswerable);
    CHECK(has(r.problems()[0].text(), "no printer"));
  }
}

TEST_CASE("an uncertainty that could not be computed establishes nothing") {
  for (const double u : {NAN, INFINITY}) {
    Estimates e = lengths_of(-0.004, -0.002, 0.08);
    for (Parameter& p : e.parameters) p.u = u, p.established = false;
    const Correction c = corrected(e, {}, with(Policy::shrink));
    CHECK(c.changes.empty());
  }
}
