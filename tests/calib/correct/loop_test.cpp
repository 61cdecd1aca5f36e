// The whole loop on the practice printer: readings, estimate, correction, and the printer again with the new settings.
#include <catch2/catch.hpp>
#include <cmath>

#include "correct/algebra.hpp"
#include "correct/correction.hpp"
#include "correct/finding.hpp"
#include "model/estimate.hpp"
#include "practice/simulate.hpp"

using namespace fitwright;

namespace {

/// A frame of 100 mm: lengths and slots of several sizes on both axes.
Truth frame_truth(int copies) {
  Truth t = default_truth();
  t.copies = copies;
  t.features.clear();
  const auto add = [&](const std::string& id, Kind kind, Axis axis, double mm) {
    TrueFeature f;
    f.id = id;
    f.kind = kind;
    f.axis = axis;
    f.lengths_mm = {mm};
    t.features.push_back(f);
  };
  for (const Axis axis : {Axis::x, Axis::y}) {
    const std::string a = axis == Axis::x ? "X" : "Y";
    add(a + "10a", Kind::outer, axis, 10);
    add(a + "10b", Kind::outer, axis, 10);
    add(a + "40", Kind::outer, axis, 40);
    add(a + "100a", Kind::outer, axis, 100);
    add(a + "100b", Kind::outer, axis, 100);
    for (const int l : {10, 20, 40}) add("S" + a + std::to_string(l), Kind::inner, axis, l);
  }
  TrueFeature zero;
  zero.id = "Z0";
  zero.kind = Kind::zero;
  zero.axis = Axis::n;
  zero.lengths_mm = {0};
  t.features.push_back(zero);
  return t;
}

/// What lengths do in the printer that the truth describes, with the settings after a correction.
std::map<std::string, double> really_left(const Truth& t, const Correction& c) {
  const PlanarOutcome o = outcome(c.before, c.after, {t.scale.x, t.scale.y, t.edge_growth_mm});
  return {{"x100", 100 * (o.gain_x - 1) + 2 * o.edge_x_mm},
          {"y100", 100 * (o.gain_y - 1) + 2 * o.edge_y_mm},
          {"slot_x20", 20 * (o.gain_x - 1) - 2 * o.edge_x_mm}};
}

struct Tally {
  int inside = 0;
  int all = 0;
  double ratio = 0;  ///< sum of |off| / u
};

}  // namespace

TEST_CASE("what remains after a correction lies where it was promised") {
  constexpr int runs = 120;
  for (const int copies : {1, 3}) {
    for (const Policy policy : {Policy::shrink, Policy::steps, Policy::shrink_only}) {
      std::map<std::string, Tally> tally;
      for (int seed = 1; seed <= runs; ++seed) {
        const Truth truth = frame_truth(copies);
        const auto e = estimate(simulate(truth, static_cast<std::uint64_t>(seed)));
        REQUIRE(e.ok());
        CorrectOptions options;
        options.policy = policy;
        const auto c = correct(*e, State{}, options);
        REQUIRE(c.ok());
        for (const auto& [place, left] : really_left(truth, *c)) {
          const Remains& promised = c->remains_mm.at(place);
          const double off = std::abs(left - promised.value);
          Tally& t = tally[place];
          ++t.all;
          t.inside += promised.lower <= left && left <= promised.upper;
          t.ratio += off / promised.u;
        }
      }
      for (const auto& [place, t] : tally) {
        INFO(copies << " copies, " << word(policy) << ", " << place << ": " << t.inside << " of " << t.all
                    << " inside, mean |off|/u " << t.ratio / t.all);
        // 95 % promised; 120 runs scatter by 2 %, so 0.90 is 2.5 standard deviations below.
        CHECK(t.inside >= 0.90 * t.all);
        CHECK(t.ratio / t.all < 1.3);
        CHECK(t.ratio / t.all > 0.2);  // nor are the intervals empty words
      }
    }
  }
}

TEST_CASE("findings of simulated prints name what the printer really does") {
  Truth truth = frame_truth(3);
  truth.edge_growth_mm = 0.12;
  truth.scale = {-0.006, -0.003, 0};
  int edge = 0, axis = 0, differ = 0;
  for (int seed = 1; seed <= 20; ++seed) {
    const ReadingSet set = simulate(truth, static_cast<std::uint64_t>(seed));
    const auto e = estimate(set);
    REQUIRE(e.ok());
    FindingOptions options;
    options.state = State{};
    for (const Finding& f : findings(*e, set, options)) {
      edge += f.id == "edge-growth";
      axis += f.id == "scale-axis";
      differ += f.id == "axes-differ";
    }
  }
  CHECK(edge >= 19);
  CHECK(axis >= 38);
  CHECK(differ >= 15);
}
