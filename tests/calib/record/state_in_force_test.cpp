// What holds at a date: against a replay written the plain way, over random histories.

#include "record/state_in_force.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <set>

#include "correct/algebra.hpp"
#include "sample_bench.hpp"

using namespace sample;

namespace {

const std::vector<std::string> turned{"size_factor",    "outline_offset_mm", "flow",       "steps_per_mm.x",
                                      "steps_per_mm.y", "steps_per_mm.z",    "z_offset_mm"};

double value_in(const State& state, const std::string& knob) {
  for (const auto& [name, value] : by_knob(state))
    if (name == knob) return value;
  throw std::logic_error(knob);
}

std::string minute(int n) {
  return "2026-11-02T" + std::string(n / 60 < 10 ? "0" : "") + std::to_string(n / 60) + ":" +
         std::string(n % 60 < 10 ? "0" : "") + std::to_string(n % 60) + ":00.000Z";
}

/// A history in which corrections are made for whatever, applied and withdrawn in any order.
SettingsHistory random_history(std::mt19937_64& random) {
  const auto pick = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  SettingsHistory h;
  const int setups = 1 + pick(3);
  for (int s = 0; s < setups; ++s) {
    State state;
    if (pick(2)) state.size_factor = 1.004;
    h.setups.push_back({Id{"setup " + std::to_string(s)}, "setup", state, minute(pick(200))});
  }
  const int corrections = pick(8);
  for (int c = 0; c < corrections; ++c) {
    SettingsHistory::Correction correction{Id{"correction " + std::to_string(c)},
                                           h.setups[static_cast<std::size_t>(pick(setups))].id,
                                           pick(3) ? "estimate" : "by hand",
                                           {},
                                           {}};
    // Few values, so that a knob often holds what a correction expects.
    for (const std::string& knob : turned) {
      const double base = value_in(State{}, knob);
      set_knob(correction.before, knob, base + 0.001 * pick(3));
      set_knob(correction.after, knob, pick(2) ? base + 0.001 * pick(3) : value_in(correction.before, knob));
    }
    h.corrections.push_back(correction);
  }
  const int events = corrections ? pick(20) : 0;
  for (int e = 0; e < events; ++e)
    h.events.push_back({h.corrections[static_cast<std::size_t>(pick(corrections))].id, minute(10 * e),
                        pick(2) ? "applied" : "withdrawn"});
  return h;
}

/// Value of one knob of one setup, by the words of the rule.
double plainly(const SettingsHistory& h, const SettingsHistory::Setup& setup, const std::string& knob,
               const std::string& at) {
  const bool steps = knob.rfind("steps_per_mm.", 0) == 0;
  State start = setup.state;
  start.steps_per_mm = h.steps;
  double value = value_in(start, knob);
  std::set<std::string> in_force;
  for (const auto& event : h.events) {
    if (event.at > at) break;
    for (const auto& c : h.corrections) {
      if (c.id != event.correction) continue;
      const bool mine = steps || c.setup == setup.id;
      const double before = value_in(c.before, knob), after = value_in(c.after, knob);
      if (event.what == "applied" && in_force.insert(c.id.text).second) {
        if (mine && before != after) value = after;
      } else if (event.what == "withdrawn" && in_force.erase(c.id.text)) {
        if (mine && before != after && value == after) value = before;
      }
    }
  }
  return value;
}

}  // namespace

TEST_CASE("the state in force equals a plain replay of random histories") {
  std::mt19937_64 random(20261125);
  int with_events = 0;
  for (int run = 0; run < 400; ++run) {
    const SettingsHistory h = random_history(random);
    with_events += !h.events.empty();
    for (const std::string& at : {minute(0), minute(55), minute(190)}) {
      const auto states = replay(h, at);
      REQUIRE(states.size() == h.setups.size());
      for (const auto& setup : h.setups)
        for (const std::string& knob : turned) {
          INFO("history " << run << ", " << setup.id.text << ", " << knob << " at " << at);
          REQUIRE(value_in(states.at(setup.id).state, knob) == plainly(h, setup, knob, at));
        }
    }
  }
  CHECK(with_events > 200);
}

TEST_CASE("whatever does not go as foreseen is noted") {
  std::mt19937_64 random(7);
  int unforeseen = 0;
  for (int run = 0; run < 400; ++run) {
    SettingsHistory h = random_history(random);
    if (h.events.empty() || h.events.front().what != "applied") continue;
    const auto& first = h.events.front();
    h.events.resize(1);
    for (const auto& c : h.corrections) {
      if (c.id != first.correction) continue;
      bool otherwise = false;
      for (const auto& d : differences(c.before, c.after)) {
        const bool steps = d.knob.rfind("steps_per_mm.", 0) == 0;
        for (const auto& setup : h.setups) {
          State start = setup.state;
          start.steps_per_mm = h.steps;
          otherwise = otherwise || ((steps || setup.id == c.setup) && value_in(start, d.knob) != d.a);
        }
      }
      unforeseen += otherwise;
      const auto out = replay(h).at(c.setup);
      if (otherwise) CHECK_FALSE(out.notes.empty());
    }
  }
  CHECK(unforeseen > 50);
}

TEST_CASE("steps are the printer's: a setup entered later has those in force, and owes nothing for them") {
  SettingsHistory h;
  const Id slate{"slate"}, later{"later"};
  State calibrated;
  calibrated.size_factor = 1.005;
  h.setups = {{slate, "PLA slate", {}, "2026-11-01"}, {later, "PETG clear", calibrated, "2026-11-20"}};
  State after;
  after.steps_per_mm.x = after.steps_per_mm.y = 80.4;
  h.corrections = {{Id{"c"}, slate, "estimate", {}, after}};
  h.events = {{Id{"c"}, "2026-11-10", "applied"}};
  auto states = replay(h);
  CHECK(states.at(later).state.steps_per_mm.x == 80.4);
  CHECK_FALSE(states.at(later).due);
  CHECK(states.at(later).notes.empty());
  CHECK_FALSE(states.at(slate).due);
  CHECK(states.at(slate).calibrated);

  // The same setup entered before owes a re-expression, by the algebra of the published formula.
  h.setups[1].entered = "2026-11-02";
  states = replay(h);
  REQUIRE(states.at(later).due);
  CHECK(states.at(later).due->becomes.size_factor == Approx(1.005 * 80 / 80.4).epsilon(1e-12));
  CHECK(states.at(later).due->because_of == Id{"c"});
  CHECK(states.at(later).due->since == "2026-11-10");
  CHECK(states.at(later).notes.size() == 1);
  CHECK(replay(h, "2026-11-09").at(later).notes.empty());

  // One that was never calibrated is stale.
  h.setups[1].state.size_factor = 1;
  states = replay(h);
  CHECK(states.at(later).stale);
  CHECK_FALSE(states.at(later).due);
  CHECK(states.at(later).notes.size() == 1);
}

TEST_CASE("steps of X and Y turned against each other leave the size factors of the others alone, and are told") {
  SettingsHistory h;
  const Id slate{"slate"}, clear{"clear"};
  State calibrated;
  calibrated.size_factor = 1.005;
  h.setups = {{slate, "PLA slate", {}, "2026-11-01"}, {clear, "PETG clear", calibrated, "2026-11-01"}};
  const State after = shrink_scaled({}, {-0.004, -0.001, 0});
  h.corrections = {{Id{"c"}, slate, "estimate", {}, after}};
  h.events = {{Id{"c"}, "2026-11-10", "applied"}};
  const auto states = replay(h);
  CHECK_FALSE(states.at(clear).due);
  CHECK_FALSE(states.at(clear).stale);
  CHECK(states.at(clear).notes.size() == 1);
}

TEST_CASE("knobs that differ are told in words") {
  State a, b;
  a.flow = 0.96;
  a.steps_per_mm.x = 80.2;
  b.flow_edge_gain_mm = 0.3;
  CHECK(in_words(differences(a, b)) == "flow 0.96 instead of 1, steps per mm of X 80.2 instead of 80");
}
