// Findings from the record: state, stale, double, proved.

#include "record/record_findings.hpp"

#include <catch2/catch.hpp>

#include "correct/algebra.hpp"
#include "sample_bench.hpp"
#include "sample_prints.hpp"

using namespace sample;

namespace {

std::vector<std::string> ids(const std::vector<Finding>& findings) {
  std::vector<std::string> out;
  for (const Finding& f : findings) {
    out.push_back(f.id);
    CHECK_FALSE(f.text.empty());
    CHECK_FALSE(f.because.empty());
    CHECK_FALSE(f.action.empty());
  }
  return out;
}

using Ids = std::vector<std::string>;

}  // namespace

TEST_CASE("what the record says of a setup, along its life") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  const Id clear = bench.new_setup(record, "PETG clear on Heron", 1.006);
  const Id fresh = bench.new_setup(record, "PLA white on Heron");
  CHECK(ids(got(record_findings(record, slate))).empty());

  KeepOptions into;
  into.setup = slate;
  got(keep_readings(record, simulate(frame_truth(1), 1), into));
  into.setup = fresh;
  got(keep_readings(record, simulate(frame_truth(1), 2), into));
  CHECK(ids(got(record_findings(record, slate))).empty());

  const State before = now(record, slate);
  const PlanarFit fit{-0.004, -0.004, 0};
  const Id by_steps = proposed(record, slate, before, steps_scaled(before, fit));
  proposed(record, slate, before, shrink_scaled(before, fit));
  got(apply(record, by_steps));
  CHECK(ids(got(record_findings(record, slate))) == Ids{"state", "double", "not-proved"});
  const auto of_clear = got(record_findings(record, clear));
  CHECK(ids(of_clear) == Ids{"stale"});
  CHECK(of_clear[0].severity == Severity::act);
  CHECK(of_clear[0].text.find("0.40 mm longer") != std::string::npos);
  CHECK(ids(got(record_findings(record, fresh))) == Ids{"stale", "state"});
}

TEST_CASE("a proof as a finding") {
  Proof proof;
  proof.text = proof.because = proof.action = "words";
  proof.verdict = Verdict::proved;
  CHECK(proof_finding(proof).id == "proved");
  CHECK(proof_finding(proof).severity == Severity::fine);
  proof.verdict = Verdict::not_proved;
  CHECK(proof_finding(proof).id == "not-proved");
  CHECK(proof_finding(proof).severity == Severity::act);
  proof.verdict = Verdict::cannot_tell;
  CHECK(proof_finding(proof).severity == Severity::know);
}
