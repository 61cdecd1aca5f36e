// Which policy is recommended: from the physics of plastic (it shrinks as it cools) and of belts (they serve one axis).

#include "correct/recommend.hpp"

#include <catch2/catch.hpp>

using namespace fitwright;

namespace {

Estimates with_scales(double x, double y) {
  Estimates e;
  for (const auto& [name, value] : {std::pair{name::scale_x, x}, std::pair{name::scale_y, y}}) {
    Parameter p;
    p.name = name;
    p.value = value;
    p.u = 0.0002;
    p.df = 10;
    p.lower = value - 0.0005;
    p.upper = value + 0.0005;
    p.established = p.lower > 0 || p.upper < 0;
    e.parameters.push_back(p);
  }
  return e;
}

PolicyResult turning(Policy policy, const std::vector<std::string>& knobs) {
  Correction c;
  c.policy = policy;
  for (const std::string& knob : knobs) {
    Change change;
    change.knob = knob;
    c.changes.push_back(change);
  }
  return {policy, c};
}

}  // namespace

TEST_CASE("nothing to change is an answer") {
  const auto r =
      recommend(with_scales(0, 0), {turning(Policy::shrink, {}), turning(Policy::steps, {}), {Policy::machine, {}}});
  CHECK_FALSE(r.policy);
  CHECK_FALSE(r.because.empty());
}

TEST_CASE("both axes short alike: the plastic") {
  const auto r = recommend(with_scales(-0.004, -0.004), {turning(Policy::shrink, {"size_factor"}),
                                                         turning(Policy::steps, {"steps_per_mm.x", "steps_per_mm.y"})});
  CHECK(r.policy == Policy::shrink);
  CHECK(r.because.find("plastic") != std::string::npos);
}

TEST_CASE("both axes long: not the plastic") {
  const auto r = recommend(with_scales(0.004, 0.005), {turning(Policy::shrink, {"size_factor"}),
                                                       turning(Policy::steps, {"steps_per_mm.x", "steps_per_mm.y"})});
  CHECK(r.policy == Policy::steps);
}

TEST_CASE("one axis long is no reason to blame the machine for both") {
  const auto r = recommend(with_scales(0.004, -0.001), {turning(Policy::shrink, {"size_factor", "steps_per_mm.x"}),
                                                        turning(Policy::steps, {"steps_per_mm.x"})});
  CHECK(r.policy == Policy::shrink);
}

TEST_CASE("a measured travel decides") {
  const auto r = recommend(with_scales(-0.004, -0.002), {turning(Policy::shrink, {"size_factor"}),
                                                         turning(Policy::machine, {"steps_per_mm.x", "size_factor"})});
  CHECK(r.policy == Policy::machine);
}
