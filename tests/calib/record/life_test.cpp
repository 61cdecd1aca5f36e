// A correction's life: what may follow what, what it does to the settings, and what other setups owe for it.

#include "record/life.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "correct/algebra.hpp"
#include "sample_bench.hpp"

using namespace sample;

namespace {

std::string why(const Problems& problems) { return problems.front().text(); }

/// What re-expression keeps: steps in plane times size factor, and times outline offset.
std::pair<double, double> kept_products(const State& s) {
  const double mu = std::sqrt(s.steps_per_mm.x * s.steps_per_mm.y);
  return {mu * s.size_factor, mu * s.outline_offset_mm};
}

}  // namespace

TEST_CASE("proposed, applied, withdrawn: the settings follow and come back") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  const State before = now(record, slate);
  State after = before;
  after.size_factor = 1.0035;
  after.outline_offset_mm = -0.07;
  const Id c = proposed(record, slate, before, after);
  CHECK(differences(now(record, slate), before).empty());
  CHECK(got(life_of(record, c)).standing == Standing::proposed);

  const StepTaken look = got(look_at_applying(record, c));
  CHECK(look.knobs.size() == 2);
  CHECK(differences(look.now.state, after).empty());
  CHECK(got(life_of(record, c)).standing == Standing::proposed);  // nothing was written

  const StepTaken step = got(apply(record, c, {.reason = "first evening"}));
  CHECK(step.life.standing == Standing::applied);
  CHECK(step.life.events.back().value.reason == "first evening");
  CHECK(differences(now(record, slate), after).empty());
  CHECK_FALSE(step.cautions.empty());
  const std::string then = step.life.events.back().at;

  CHECK(why(apply(record, c).problems()).find("applied already") != std::string::npos);
  const StepTaken back = got(withdraw(record, c, {.reason = "nozzle changed"}));
  CHECK(back.life.standing == Standing::withdrawn);
  CHECK(differences(now(record, slate), before).empty());
  CHECK(differences(got(state_in_force(record, slate, then)).state, after).empty());
  CHECK(why(apply(record, c).problems()).find("withdrawn") != std::string::npos);
  CHECK(why(withdraw(record, c, {}).problems()).find("withdrawn already") != std::string::npos);
}

TEST_CASE("the same proposal is kept once while it stands") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  State after = now(record, slate);
  after.size_factor = 1.0035;
  const Id first = proposed(record, slate, now(record, slate), after);
  CHECK(proposed(record, slate, now(record, slate), after) == first);
  got(withdraw(record, first, {}));
  CHECK(proposed(record, slate, now(record, slate), after) != first);
  CHECK(got(corrections_of(record, slate)).size() == 2);
  CHECK_FALSE(propose(record, slate, {}, correction(after, after)).ok());
}

TEST_CASE("a correction made for other settings than are in force is refused, unless it is forced") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  State other = now(record, slate);
  other.layer_height_mm = 0.3;
  State after = other;
  after.outline_offset_mm = -0.05;
  const Id c = proposed(record, slate, other, after);
  CHECK(why(apply(record, c).problems()).find("layer height 0.3 instead of 0.2") != std::string::npos);
  const StepTaken step = got(apply(record, c, {.force = true}));
  CHECK(now(record, slate).outline_offset_mm == -0.05);
  CHECK(now(record, slate).layer_height_mm == 0.2);  // only what it turns
}

TEST_CASE("nothing acts twice on one error, forced or not") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  const State before = now(record, slate);
  const PlanarFit fit{-0.004, -0.004, 0.08};
  const Id by_shrink = proposed(record, slate, before, shrink_scaled(before, fit));
  const Id by_steps = proposed(record, slate, before, steps_scaled(before, fit));
  State flow = before, offset = before;
  flow.flow = 0.95;
  offset.outline_offset_mm = -0.08;
  const Id by_flow = proposed(record, slate, before, flow);
  const Id by_offset = proposed(record, slate, before, offset);
  got(apply(record, by_shrink));
  for (const bool force : {false, true})
    CHECK(why(apply(record, by_steps, {.force = force}).problems()).find("a second time on the scale") !=
          std::string::npos);
  // Edge growth is another error: made for other settings, but forced it may act.
  CHECK_FALSE(apply(record, by_offset).ok());
  got(apply(record, by_offset, {.force = true}));
  CHECK(why(apply(record, by_flow, {.force = true}).problems()).find("edge growth") != std::string::npos);
  CHECK(got(state_in_force(record, slate)).corrections == std::vector<Id>{by_shrink, by_offset});
  // A better value of the same knob takes the place of the old one.
  State better = before;
  better.outline_offset_mm = -0.07;
  got(apply(record, proposed(record, slate, before, better), {.force = true}));
  CHECK(now(record, slate).outline_offset_mm == -0.07);
}

TEST_CASE("turned steps: calibrated setups of the printer get a re-expression, others are stale, none is silent") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  const Id clear = bench.new_setup(record, "PETG clear on Heron", 1.006);
  const Id fresh = bench.new_setup(record, "PLA white on Heron");
  const State before = now(record, slate);
  State after = before;
  after.steps_per_mm.x = 80.4;
  after.steps_per_mm.y = 80.2;
  const Id c = proposed(record, slate, before, after);
  const auto was = kept_products(now(record, clear));

  const StepTaken look = got(look_at_applying(record, c));
  REQUIRE(look.others.size() == 2);
  CHECK(look.others[0].correction.empty());
  CHECK(got(corrections_of(record, clear)).empty());

  const StepTaken step = got(apply(record, c));
  REQUIRE(step.others.size() == 2);
  CHECK(step.others[0].setup == clear);
  CHECK_FALSE(step.others[0].stale);
  CHECK(step.others[1].setup == fresh);
  CHECK(step.others[1].stale);
  bool steps_caution = false;
  for (const std::string& text : step.cautions)
    steps_caution = steps_caution || text.find("hand on the power switch") != std::string::npos;
  CHECK(steps_caution);
  CHECK(got(state_in_force(record, clear)).due);

  // Applied, its lengths are what they were: (1-k)(1+m) mu C in the mean of X and Y.
  got(apply(record, step.others[0].correction));
  const auto is = kept_products(now(record, clear));
  CHECK(is.first == Approx(was.first).epsilon(1e-14));
  CHECK_FALSE(got(state_in_force(record, clear)).due);
  CHECK(got(state_in_force(record, fresh)).stale);

  // Back: it is due the other way round, and ends where it was.
  const StepTaken back = got(withdraw(record, c, {.reason = "pulley was worn"}));
  REQUIRE(back.others.size() == 1);
  got(apply(record, back.others[0].correction));
  CHECK(now(record, clear).size_factor == Approx(1.006).epsilon(1e-14));
}

TEST_CASE("a re-expression that is no longer needed is taken back") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  const Id clear = bench.new_setup(record, "PETG clear on Heron", 1.006);
  State after = now(record, slate);
  after.steps_per_mm.x = after.steps_per_mm.y = 80.4;
  const Id c = proposed(record, slate, now(record, slate), after);
  const Id owed = got(apply(record, c)).others.at(0).correction;
  got(withdraw(record, c, {}));
  CHECK(got(life_of(record, owed)).standing == Standing::withdrawn);
  CHECK_FALSE(got(state_in_force(record, clear)).due);
  CHECK(now(record, clear).size_factor == 1.006);
}

TEST_CASE("steps that a setup's correction set stay set when the setup is ended") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  const Id clear = bench.new_setup(record, "PETG clear on Heron", 1.006);
  State after = now(record, slate);
  after.steps_per_mm.x = after.steps_per_mm.y = 80.4;
  got(apply(record, proposed(record, slate, now(record, slate), after)));
  got(end(record, got(one<Setup>(record, slate)), "spool is empty"));
  CHECK(now(record, clear).steps_per_mm.x == 80.4);
  CHECK(got(state_in_force(record, clear)).due);
  State next = now(record, clear);
  next.steps_per_mm.x = next.steps_per_mm.y = 80.1;
  for (const Reexpression& other : got(by_hand(record, clear, next, {})).others) CHECK(other.setup == clear);
}

TEST_CASE("settings changed by hand are kept as such") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron", 1.004);
  State after = now(record, slate);
  CHECK_FALSE(by_hand(record, slate, after, {}).ok());
  after.flow = 0.96;
  const StepTaken step = got(by_hand(record, slate, after, {.reason = "new filament guide"}));
  CHECK(step.life.standing == Standing::applied);
  CHECK(step.life.correction.value.origin == "by hand");
  CHECK(now(record, slate).flow == 0.96);
  CHECK(step.others.empty());
  // Steps turned by hand: its own size factor owes as well.
  after.steps_per_mm.x = after.steps_per_mm.y = 79.2;
  const StepTaken steps = got(by_hand(record, slate, after, {}));
  REQUIRE(steps.others.size() == 1);
  CHECK(steps.others[0].setup == slate);
  CHECK(steps.others[0].after.size_factor == Approx(1.004 * 80 / 79.2).epsilon(1e-12));
  after.flow = 20;
  CHECK_FALSE(by_hand(record, slate, after, {}).ok());
}

TEST_CASE("dates: steps follow one another, whatever a clock says") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  State after = now(record, slate);
  after.flow = 0.97;
  got(by_hand(record, slate, after, {.at = "2030-01-01T00:00:00.000Z"}));  // a clock that ran ahead
  after.flow = 0.98;
  CHECK_FALSE(by_hand(record, slate, after, {.at = "2026-11-20T00:00:00.000Z"}).ok());
  const StepTaken step = got(by_hand(record, slate, after, {}));
  CHECK(step.life.events.back().at == "2030-01-01T00:00:00.001Z");
  CHECK(now(record, slate).flow == 0.98);
  CHECK(got(state_in_force(record, slate, "2030-01-01T00:00:00.000Z")).state.flow == 0.97);
}

TEST_CASE("a correction kept in the record reads back whole") {
  Correction c = correction({}, shrink_scaled({}, {-0.004, -0.003, 0.05}));
  c.policy = Policy::shrink;
  c.changes[0].u = 0.0004;
  c.changes[0].because = "both short";
  c.changes[0].effect_mm = {{20, 0.07}, {100, 0.35}, {200, 0.7}};
  c.left_alone = {{"flow", "no wall was read"}};
  c.remains_mm["x100"] = {0.01, 0.02, 5.5, -0.04, 0.06, 0.03, 0.07};
  c.remains_mm["y100"].df = std::numeric_limits<double>::infinity();
  c.invariant_x = 1.0001;
  c.cautions = {"hot"};
  c.commands = {"M92 X80.1"};
  StoredCorrection stored;
  stored.policy = word(c.policy);
  stored.before = to_json(c.before);
  stored.after = to_json(c.after);
  stored.detail = kept_text(c);
  const Correction back = got(correction_from(stored));
  CHECK(kept_text(back) == stored.detail);
  CHECK(differences(back.after, c.after).empty());
  CHECK(back.changes[0].effect_mm == c.changes[0].effect_mm);
  CHECK(std::isinf(back.remains_mm.at("y100").df));
  for (const std::string& text : {std::string("{}"), std::string("nonsense"), stored.detail.substr(0, 40)}) {
    stored.detail = text;
    CHECK_FALSE(correction_from(stored).ok());
  }
}

TEST_CASE("over random lives: withdrawing undoes, and once all is re-expressed no calibrated setup has moved") {
  std::mt19937_64 random(300);
  for (int run = 0; run < 25; ++run) {
    INFO("run " << run);
    Record record = record_in_memory();
    const SampleBench bench(record);
    const Id slate = bench.new_setup(record, "PLA slate");
    const std::vector<Id> calibrated{bench.new_setup(record, "PETG clear", 1.006),
                                     bench.new_setup(record, "PLA white", 0.998)};
    std::vector<std::pair<double, double>> products;
    for (const Id& id : calibrated) products.push_back(kept_products(now(record, id)));
    std::vector<Id> in_force;
    for (int move = 0; move < 6; ++move) {
      const State before = now(record, slate);
      const auto part = [&] { return (static_cast<double>(random() % 2001) - 1000) * 1e-5; };
      if (random() % 3 && in_force.size() < 4) {
        const PlanarFit fit{part(), part(), part()};
        const Id c =
            proposed(record, slate, before, random() % 2 ? steps_scaled(before, fit) : shrink_scaled(before, fit));
        got(apply(record, c));
        got(withdraw(record, c, {}));
        CHECK(differences(now(record, slate), before).empty());
        const Id again = proposed(record, slate, before, steps_scaled(before, fit));
        got(apply(record, again));
        in_force.push_back(again);
      } else if (!in_force.empty()) {
        got(withdraw(record, in_force.back(), {}));  // the last first: it holds what it set
        in_force.pop_back();
      }
      for (std::size_t k = 0; k < calibrated.size(); ++k) {
        if (random() % 2) continue;  // some let it wait
        for (const CorrectionLife& life : got(corrections_of(record, calibrated[k])))
          if (life.standing == Standing::proposed) got(apply(record, life.correction.thing));
      }
    }
    for (std::size_t k = 0; k < calibrated.size(); ++k) {
      for (const CorrectionLife& life : got(corrections_of(record, calibrated[k])))
        if (life.standing == Standing::proposed) got(apply(record, life.correction.thing));
      const auto in = got(state_in_force(record, calibrated[k]));
      CHECK_FALSE(in.due);
      CHECK(kept_products(in.state).first == Approx(products[k].first).epsilon(1e-6));
    }
  }
}
