// The coupons that are tried: rail, tongue, pockets, latch.

#include <catch2/catch.hpp>

#include "design/advice.hpp"
#include "design/trials_template.hpp"
#include "design_helpers.hpp"

using namespace fitwright;
using namespace fitwright::design_test;

namespace {

constexpr double nanometre = 1e-6;

Problem only(const std::string& design, const Overrides& overrides) {
  const Result<Coupon> coupon = make_coupon(design, overrides);
  REQUIRE(!coupon);
  REQUIRE(coupon.problems().size() == 1);
  return coupon.problems().front();
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// Pieces that lie on the bed.
int pieces(const Coupon& coupon) {
  int count = 0;
  for (const Ring& ring : coupon.solid.slabs.front().region) count += area_mm2({ring}) > 0;
  return count;
}

}  // namespace

TEST_CASE("rail and tongue: fifteen places from -0.20 to 0.50, each marked, each that much larger than its part") {
  for (const auto& [design, letter, part, nominal] :
       {std::tuple{"rail", 'S', "P8", 8.0}, std::tuple{"tongue", 'G', "T12", 12.0}}) {
    const Coupon coupon = made(design);
    REQUIRE(coupon.trials.places.size() == 15);
    CHECK(coupon.trials.size_mm == nominal);
    CHECK(coupon.trials.mates == std::vector<std::string>{std::string(part) + "a", std::string(part) + "b"});
    CHECK(coupon.trials.places.front().id == letter + std::string("-0.20"));
    CHECK(coupon.trials.places.back().id == letter + std::string("0.50"));
    for (std::size_t i = 0; i < 15; ++i) {
      const Trial& trial = coupon.trials.places[i];
      CHECK(trial.clearance_mm == (static_cast<double>(i) * 50 - 200) / 1000);
      for (const std::string& mate : coupon.trials.mates)
        CHECK(std::abs(feature(coupon, trial.id).nominal_mm - feature(coupon, mate).nominal_mm - trial.clearance_mm) <
              nanometre);
    }
    CHECK(pieces(coupon) == 3);
    CHECK(coupon.grams <= 15);
  }
}

TEST_CASE("rail: a peg is a little longer than a socket needs, and no higher than it is deep") {
  const Coupon coupon = made("rail");
  // From the plate's top (2.4 mm) up, and from the bed to the sockets' top.
  const double peg = coupon.size_z_mm - 2.4, socket = 2 * place(coupon, "S0.00").z_mm - 0.6;
  CHECK(peg >= 4);
  CHECK(peg <= socket + 0.6);
}

TEST_CASE("grading: what cannot be graded is told with what to change, and that then works") {
  CHECK(says(only("rail", {{"step_mm", "0.0125"}}).what, "step_mm = 0.0125"));
  CHECK(says(only("tongue", {{"start_mm", "-0.2004"}}).what, "start_mm"));
  const Problem far = only("pockets", {{"step_mm", "0.5"}});
  CHECK(far.code == Code::bad_input);
  CHECK(says(far.what, "ends at a clearance of 3.4 mm"));
  CHECK(says(far.remedy, "set count to 4 or less"));
  CHECK(make_coupon("pockets", {{"step_mm", "0.5"}, {"count", "4"}}).ok());
  CHECK(says(only("rail", {{"count", "2.5"}}).what, "whole number"));
  CHECK(says(only("pockets", {{"sides", "5"}}).remedy, "0 for round, 4 for square or 6 for hexagonal"));
  const Problem narrow =
      only("tongue", {{"width_mm", "10.7"}, {"start_mm", "-0.6"}, {"step_mm", "0.03"}, {"bed_x_mm", "30"}});
  CHECK(says(narrow.what, "bed_x_mm"));
  const Problem thin = only("tongue", {{"width_mm", "10.2"}});
  CHECK(says(thin.what, "out of range"));
  const Problem wide = only("tongue", {{"width_mm", "30"}});
  CHECK(says(wide.remedy, "set count to 8 and print in two goes"));
  CHECK(only("latch", {{"thickness_count", "6"}}).remedy == "set undercut_count to 2");
  CHECK(make_coupon("latch", {{"thickness_count", "6"}, {"undercut_count", "2"}, {"bed_x_mm", "220"}}).ok());
  CHECK(says(only("latch", {{"undercut_step_mm", "0"}}).what, "too small a step"));
}

TEST_CASE("grading: finer steps are marked with three decimals") {
  const Coupon coupon = made("rail", {{"start_mm", "0.05"}, {"step_mm", "0.025"}, {"count", "3"}});
  CHECK(coupon.trials.places[0].id == "S0.050");
  CHECK(coupon.trials.places[1].id == "S0.075");
}

TEST_CASE("pockets: round, square and hexagonal, measured where jaws go in, open or with a hole to push through") {
  const Coupon magnet = made("pockets");
  CHECK(magnet.trials.places.size() == 8);
  CHECK(magnet.features.size() == 8);
  CHECK(magnet.trials.mates.empty());
  CHECK(magnet.trials.magnets);
  for (const Trial& trial : magnet.trials.places)
    CHECK(std::abs(feature(magnet, trial.id).nominal_mm - 6 - trial.clearance_mm) < nanometre);
  const Coupon nut = made("pockets", {{"size_mm", "7"}, {"sides", "6"}});
  CHECK(feature(nut, "K0.00").kind == Kind::inner);
  // A hexagon of 7 over the flats takes sqrt(3)/2 of the square of its width.
  const double across = 7, hexagon = std::sqrt(3.0) / 2 * across * across;
  const Coupon exact = made("pockets", {{"size_mm", "7"}, {"sides", "6"}, {"start_mm", "0"}, {"count", "1"}});
  const double outer = [&] {
    double largest = 0;
    for (const Ring& ring : exact.solid.slabs.back().region) largest = std::max(largest, area_mm2({ring}));
    return largest;
  }();
  CHECK(outer - area_mm2(exact.solid.slabs.back().region) == Approx(hexagon).epsilon(1e-6));
  CHECK(made("pockets", {{"depth_mm", "3"}}).features.empty());
  CHECK(made("pockets", {{"size_mm", "2"}, {"start_mm", "0"}}).features.front().kind == Kind::pin);
}

TEST_CASE("latch: the strain told is that of a cantilever bent by its undercut") {
  const Coupon coupon = made("latch");
  REQUIRE(coupon.latches.size() == 9);
  for (const LatchTrial& latch : coupon.latches) {
    // Any modulus and width do: deflection F L^3 / (3 E I), bending moment F L, strain M t / (2 E I)
    // (handbook formulas of an end-loaded cantilever, from memory).
    const double modulus = 2400, width = 5, inertia = width * std::pow(latch.thickness_mm, 3) / 12;
    const double force = 3 * modulus * inertia * latch.undercut_mm / std::pow(latch.length_mm, 3);
    const double strain = force * latch.length_mm * latch.thickness_mm / 2 / (modulus * inertia);
    CHECK(latch.strain == Approx(strain).epsilon(1e-12));
    CHECK(feature(coupon, latch.id).nominal_mm == latch.thickness_mm);
  }
  CHECK(coupon.latches.front().strain < 0.005);  // what any plastic bears
  CHECK(coupon.latches.back().strain > 0.02);    // what most do not
  CHECK(pieces(coupon) == 2);
  CHECK(coupon.grams <= 15);
}

TEST_CASE("latch: hooks are wider than the window by twice the undercut less the play, arms pass it") {
  const Coupon coupon = made("latch");
  const double window = feature(coupon, "W10.9").nominal_mm;
  const Mesh mesh = mesh_of(coupon.solid);
  for (const LatchTrial& latch : coupon.latches) {
    INFO(latch.id);
    const JawPlace& p = place(coupon, latch.id);
    const bool front = p.ay < coupon.size_y_mm / 2;
    const double arm_y = p.ay;
    // The reading place is 4.5 mm from the root; a hook is widest half its undercut and a little beyond its length.
    const double hook_y = arm_y + (front ? -1 : 1) * (latch.length_mm - 4.5 + 0.5 * latch.undercut_mm + 0.25);
    const auto reaches = [&](double y, double x) {
      for (const double t : crossings_mm(mesh, {x, y, p.z_mm}, {1, 0, 0}))
        if (std::abs(t) < 1e-3) return true;
      return false;
    };
    CHECK(reaches(arm_y, p.ax));
    CHECK(reaches(arm_y, p.ax + window - 0.3));
    CHECK(reaches(hook_y, p.ax - latch.undercut_mm));
    CHECK(reaches(hook_y, p.ax + window - 0.3 + latch.undercut_mm));
  }
}

TEST_CASE("trials template: part by part from the loosest place to the tightest, grades empty") {
  const Coupon rail = made("rail", {{"count", "2"}});
  CHECK(trials_template(rail) ==
        "clearance_mm,grade,copy,measured_clearance_mm,diameter_mm\n"
        "-0.15,,1,,8\n-0.2,,1,,8\n-0.15,,1,,8\n-0.2,,1,,8\n");
  CHECK(trials_template(made("pockets", {{"count", "1"}}), 2) ==
        "clearance_mm,grade,copy,measured_clearance_mm,diameter_mm\n-0.1,,1,,6\n-0.1,,2,,6\n");
  CHECK_THROWS_AS(trials_template(made("frame")), std::logic_error);
  CHECK_THROWS_AS(trials_template(rail, 0), std::logic_error);
}

TEST_CASE("cautions of trying stand on what is tried, and on nothing else") {
  for (const DesignInfo& info : designs()) {
    const Coupon coupon = made(info.name);
    const bool tried = !coupon.trials.places.empty() || !coupon.latches.empty();
    INFO(info.name);
    CHECK(trying_cautions(coupon).empty() != tried);
    CHECK(before_trying(coupon).empty() != tried);
    if (tried) CHECK(says(trying_cautions(coupon).front(), "Eye protection"));
  }
  const auto magnets = trying_cautions(made("pockets"));
  CHECK(says(magnets.back(), "swallowed"));
}
