#include "accuracy/loop.hpp"

#include <cmath>
#include <map>
#include <stdexcept>

#include "accuracy/parallel.hpp"
#include "base/number.hpp"
#include "correct/flow.hpp"
#include "model/estimate.hpp"
#include "practice/stream.hpp"

namespace fitwright::accuracy {
namespace {

constexpr Policy policies[] = {Policy::shrink, Policy::steps, Policy::machine, Policy::shrink_only};
constexpr const char* lengths[] = {"x100", "y100", "slot_x20"};
constexpr std::uint64_t loop_seed = 9000001;

/// Ranges: what people's settings look like (common practice, no source).
constexpr double machine_sd = 0.002;
constexpr double most_shrink = 0.006;
constexpr double least_factor = 0.996, most_factor = 1.008;
constexpr double most_offset_mm = 0.12;
constexpr double least_flow = 0.93, most_flow = 1.05;
constexpr double steps_spread = 0.01;
constexpr double travel_mm = 100;

/// What the printer and the plastic do, and what people have set.
struct World {
  double machine_x = 0, machine_y = 0, shrink = 0, raw_edge_mm = 0, edge_gain_mm = 0;
  State state;
};

double between(double low, double high, std::uint64_t seed, const char* what) {
  return low + (high - low) * stream_uniform(seed, std::string("loop|") + what);
}

World draw_world(std::uint64_t seed, double raw_edge_mm) {
  World w;
  w.machine_x = machine_sd * stream_normal(seed, "loop|machine x");
  w.machine_y = machine_sd * stream_normal(seed, "loop|machine y");
  w.shrink = between(0, most_shrink, seed, "shrink");
  w.raw_edge_mm = raw_edge_mm;
  w.state.size_factor = between(least_factor, most_factor, seed, "factor");
  w.state.outline_offset_mm = between(-most_offset_mm, most_offset_mm, seed, "offset");
  w.state.flow = between(least_flow, most_flow, seed, "flow");
  w.state.steps_per_mm.x *= between(1 - steps_spread, 1 + steps_spread, seed, "steps x");
  w.state.steps_per_mm.y *= between(1 - steps_spread, 1 + steps_spread, seed, "steps y");
  // The gain of edges with flow is only known to lie in a range: the state assumes its middle.
  const EdgeGain gain = edge_gain(w.state.bead_width_mm, w.state.layer_height_mm);
  w.state.flow_edge_gain_mm = (gain.least_mm + gain.most_mm) / 2;
  w.edge_gain_mm = between(gain.least_mm, gain.most_mm, seed, "edge gain");
  return w;
}

/// Printed per commanded mm along an axis, in state `now`.
double gain(const World& w, const State& now, bool x) {
  const double steps = x ? now.steps_per_mm.x / w.state.steps_per_mm.x : now.steps_per_mm.y / w.state.steps_per_mm.y;
  return (1 - w.shrink) * (1 + (x ? w.machine_x : w.machine_y)) * steps;
}

/// Error of an outside length (sign +1) or a slot (-1): gain (C L +- 2 X) +- 2 e_raw(F) - L.
double error_mm(const World& w, const State& now, bool x, double length_mm, int sign) {
  const double edge = w.raw_edge_mm + w.edge_gain_mm * (now.flow - w.state.flow);
  return gain(w, now, x) * (now.size_factor * length_mm + 2 * sign * now.outline_offset_mm) + 2 * sign * edge -
         length_mm;
}

double error_mm(const World& w, const State& now, const std::string& length) {
  if (length == "x100") return error_mm(w, now, true, 100, 1);
  if (length == "y100") return error_mm(w, now, false, 100, 1);
  return error_mm(w, now, true, 20, -1);
}

struct Outcome {
  double before_mm = 0, after_mm = 0, announced_mm = 0, u_mm = 0;
  bool inside = false;
};
using Outcomes = std::map<std::pair<Policy, std::string>, Outcome>;

Estimates estimated(const LoopScenario& s, const World& w, Truth truth, std::uint64_t seed) {
  truth.features = features_of(s.places);
  truth.features.push_back({"Z0", Kind::zero, Axis::n, {0}, {}, {}});
  truth.copies = s.lay.copies;
  truth.turned_deg = s.lay.turned_deg;
  const double gx = gain(w, w.state, true), gy = gain(w, w.state, false);
  truth.scale.x = gx * w.state.size_factor - 1;
  truth.scale.y = gy * w.state.size_factor - 1;
  truth.edge_growth_mm = w.raw_edge_mm + w.state.outline_offset_mm * (gx + gy) / 2;
  auto estimates = estimate(simulate(truth, seed));
  if (!estimates) throw std::runtime_error(estimates.problems()[0].text());
  return std::move(estimates).value();
}

Outcomes loop_once(const LoopScenario& s, int run) {
  const std::uint64_t seed = loop_seed + static_cast<std::uint64_t>(run);
  const Truth truth = draw_truth(Truths::drawn, seed);
  const World w = draw_world(seed, truth.edge_growth_mm);
  const Estimates estimates = estimated(s, w, truth, seed);
  Outcomes out;
  for (const Policy policy : policies) {
    CorrectOptions options;
    options.policy = policy;
    if (policy == Policy::machine) {
      const auto travel = [&](double machine, const char* what) {
        return Travel{travel_mm, travel_mm * (1 + machine) + default_travel_u_mm * stream_normal(seed, what), {}};
      };
      options.travel = {{'x', travel(w.machine_x, "loop|travel x")}, {'y', travel(w.machine_y, "loop|travel y")}};
    }
    const auto correction = correct(estimates, w.state, options);
    if (!correction) throw std::runtime_error(correction.problems()[0].text());
    for (const char* length : lengths) {
      const auto found = correction->remains_mm.find(length);
      if (found == correction->remains_mm.end()) throw std::logic_error(std::string("nothing promised for ") + length);
      const Remains& r = found->second;
      Outcome o{error_mm(w, w.state, length), error_mm(w, correction->after, length), r.value, r.u, false};
      o.inside = r.lower <= o.after_mm && o.after_mm <= r.upper;
      out[{policy, length}] = o;
    }
  }
  return out;
}

}  // namespace

bool makes_right(Policy policy) { return policy == Policy::shrink || policy == Policy::steps; }

std::vector<LoopTally> close_the_loop(const LoopScenario& scenario, int runs, int threads) {
  const auto all = in_parallel(runs, threads, [&](int run) { return loop_once(scenario, run); });
  std::vector<LoopTally> out;
  for (const Policy policy : policies)
    for (const char* length : lengths) {
      LoopTally t{policy, length, runs, 0, 0, 0, 0, 0};
      for (const Outcomes& run : all) {
        const Outcome& o = run.at({policy, length});
        t.inside += o.inside ? 1.0 / runs : 0.0;
        t.mean_t += std::abs(o.after_mm - o.announced_mm) / o.u_mm / runs;
        t.before_mm += o.before_mm * o.before_mm / runs;
        t.remaining_mm += o.after_mm * o.after_mm / runs;
        t.announced_mm += o.announced_mm * o.announced_mm / runs;
      }
      for (double* square : {&t.before_mm, &t.remaining_mm, &t.announced_mm}) *square = std::sqrt(*square);
      out.push_back(t);
    }
  return out;
}

std::vector<std::string> loop_ranges() {
  const EdgeGain g = edge_gain(State{}.bead_width_mm, State{}.layer_height_mm);
  return {"error of the machine's travel on X and Y, each: normal, sd " + shortest(machine_sd),
          "shrinkage: even from 0 to " + shortest(most_shrink),
          "size factor: even from " + shortest(least_factor) + " to " + shortest(most_factor),
          "outline offset: even from " + shortest(-most_offset_mm) + " to " + shortest(most_offset_mm) + " mm",
          "flow: even from " + shortest(least_flow) + " to " + shortest(most_flow),
          "steps of X and Y, each: even within " + shortest(100 * steps_spread) + " % of 80 per mm",
          "edge growth per unit of flow: even from " + fixed(g.least_mm, 4) + " to " + fixed(g.most_mm, 4) +
              " mm, of which the state holds the middle",
          "travel measured for the machine policy: " + shortest(travel_mm) + " mm, normal with sd " +
              shortest(default_travel_u_mm) + " mm",
          "seeds " + std::to_string(loop_seed) + " and on"};
}

}  // namespace fitwright::accuracy
