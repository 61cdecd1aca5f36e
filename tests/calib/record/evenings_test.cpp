// Three evenings with the record closed in between, and two windows on it at once.

#include <catch2/catch.hpp>
#include <cmath>

#include "correct/algebra.hpp"
#include "record/cost.hpp"
#include "record/kept_estimate.hpp"
#include "record/proof.hpp"
#include "record/record_findings.hpp"
#include "report/estimate_report.hpp"
#include "sample_bench.hpp"
#include "sample_prints.hpp"
#include "scratch.hpp"

using namespace sample;

namespace {

/// The printer with the settings of `after`, when `truth` is what it does with those of `before`.
Truth printed_with(Truth truth, const State& before, const State& after) {
  const PlanarOutcome o = outcome(before, after, {truth.scale.x, truth.scale.y, truth.edge_growth_mm});
  truth.scale.x = o.gain_x - 1;
  truth.scale.y = o.gain_y - 1;
  truth.edge_growth_mm = o.edge_mm;
  return truth;
}

}  // namespace

TEST_CASE("three evenings: measured, corrected; proved; another spool of the printer re-expressed") {
  const scratch::Folder folder(true);
  const std::string path = folder / "evenings.fitwright";
  const Truth truth = frame_truth(2);
  Id slate, clear, correction_id;
  {
    Record record = scratch::opened(path);
    const SampleBench bench(record);
    slate = bench.new_setup(record, "PLA slate on Heron");
    clear = bench.new_setup(record, "PETG clear on Heron", 1.006);
    KeepOptions into;
    into.setup = slate;
    into.printed_on = "2026-11-10";
    got(keep_readings(record, simulate(truth, 21), into));
    const SetupEstimate e = got(estimate_setup(record, slate));
    const auto kept = got(keep_estimate(record, e, estimate_json(e.estimates, e.from.readings, {}), "test"));
    CorrectOptions options;
    options.policy = Policy::steps;
    const Correction c = got(correct(e.estimates, e.from.printed_with, options));
    correction_id = got(propose(record, slate, kept.thing, c)).correction.thing;
    const StepTaken step = got(apply(record, correction_id));
    REQUIRE(step.others.size() == 1);
    CHECK(step.others[0].setup == clear);
  }
  {
    Record record = scratch::opened(path);
    const Correction c = got(correction_from(got(life_of(record, correction_id)).correction.value));
    Truth again = printed_with(truth, c.before, c.after);
    again.copies = 1;
    KeepOptions into;
    into.setup = slate;
    into.printed_with = now(record, slate);
    into.printed_on = "2026-11-12";
    got(keep_readings(record, simulate(again, 22), into));
    CHECK(got(prove(record, correction_id)).proof.verdict == Verdict::proved);
    const auto findings = got(record_findings(record, clear));
    REQUIRE_FALSE(findings.empty());
    CHECK(findings[0].id == "stale");
    for (const CorrectionLife& life : got(corrections_of(record, clear)))
      if (life.standing == Standing::proposed) got(apply(record, life.correction.thing));
  }
  {
    Record record = scratch::opened(path);
    CHECK(got(life_of(record, correction_id)).standing == Standing::proved);
    const StateInForce in = got(state_in_force(record, clear));
    CHECK_FALSE(in.due);
    CHECK(in.state.size_factor * std::sqrt(in.state.steps_per_mm.x * in.state.steps_per_mm.y) ==
          Approx(1.006 * 80).epsilon(1e-12));
    CHECK(got(record_findings(record, clear)).empty());
    // A file read once more on the third evening changes nothing.
    KeepOptions into;
    into.setup = slate;
    CHECK(got(keep_readings(record, simulate(truth, 21), into)).added == 0);
    CHECK(got(cost_of(record, slate)).copies.size() == 3);
  }
}

TEST_CASE("two windows: a correction is applied by one of them, and both see it") {
  const scratch::Folder folder(true);
  const std::string path = folder / "two.fitwright";
  Record ours = scratch::opened(path);
  const SampleBench bench(ours);
  const Id slate = bench.new_setup(ours, "PLA slate on Heron");
  State after = now(ours, slate);
  after.size_factor = 1.004;
  const Id c = proposed(ours, slate, now(ours, slate), after);
  Record theirs = scratch::opened(path);
  CHECK(differences(now(theirs, slate), now(ours, slate)).empty());
  got(apply(theirs, c));
  CHECK(apply(ours, c).problems().front().what.find("applied already") != std::string::npos);
  CHECK(now(ours, slate).size_factor == 1.004);
  got(withdraw(ours, c, {.reason = "wrong spool"}));
  CHECK(now(theirs, slate).size_factor == 1);
  CHECK(got(life_of(theirs, c)).events.size() == 3);
}
