// A proof print against what was foretold, on the practice printer.

#include "record/proof.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "correct/algebra.hpp"
#include "record/reading_set.hpp"
#include "sample_bench.hpp"
#include "sample_prints.hpp"

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

struct Tally {
  int proved = 0, not_proved = 0, cannot_tell = 0;
  void count(Verdict v) {
    proved += v == Verdict::proved;
    not_proved += v == Verdict::not_proved;
    cannot_tell += v == Verdict::cannot_tell;
  }
};

/// One evening, one correction, and one proof print: really with the new settings, or (`done` false) with the old.
Verdict evening(int copies, int seed, bool done, bool same_faces) {
  const Truth truth = frame_truth(copies);
  const Estimates e = got(estimate(simulate(truth, static_cast<std::uint64_t>(seed))));
  const Correction c = got(correct(e, State{}, {}));
  Truth again = done ? printed_with(truth, c.before, c.after) : truth;
  // The same seed gives the faces the errors they had before; the copies are new ones.
  again.copies = copies + 1;
  const ReadingSet proof =
      copies_from(simulate(again, static_cast<std::uint64_t>(same_faces ? seed : seed + 5000)), copies + 1);
  return got(held_against(c, proof)).verdict;
}

}  // namespace

TEST_CASE("a correction that was carried out is proved, one that was not is found out") {
  constexpr int runs = 60;
  for (const int copies : {1, 2, 3})
    for (const bool same_faces : {true, false}) {
      Tally done, forgotten;
      for (int seed = 1; seed <= runs; ++seed) {
        done.count(evening(copies, seed, true, same_faces));
        forgotten.count(evening(copies, seed, false, same_faces));
      }
      INFO(copies << " copies, same faces " << same_faces << ": done " << done.proved << " proved, " << done.not_proved
                  << " not, " << done.cannot_tell << " cannot tell; forgotten " << forgotten.proved << " proved, "
                  << forgotten.not_proved << " not, " << forgotten.cannot_tell << " cannot tell");
      // 5 % a place may fail by chance; of 60 runs that is 3, and 8 are 3 standard deviations more.
      CHECK(done.not_proved <= 8);
      CHECK(done.proved >= 45);
      CHECK(forgotten.proved <= 8);
      CHECK(forgotten.not_proved >= 45);
    }
}

TEST_CASE("a proof in the record: only of what is in force, printed with its settings; kept when proved") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  const Truth truth = frame_truth(2);
  KeepOptions into;
  into.setup = slate;
  got(keep_readings(record, simulate(truth, 11), into));
  const GatheredReadings from = got(readings_for(record, slate));
  const Correction c = got(correct(got(estimate(from.readings)), from.printed_with, {}));
  const Id id = got(propose(record, slate, {}, c)).correction.thing;
  CHECK(prove(record, id).problems().front().what.find("proposed") != std::string::npos);
  got(apply(record, id));
  CHECK(prove(record, id).problems().front().what.find("no copy printed") != std::string::npos);

  Truth again = printed_with(truth, c.before, c.after);
  again.copies = 1;
  into.printed_with = c.after;
  got(keep_readings(record, simulate(again, 12), into));
  CHECK_FALSE(prove(record, id, {from.copies[0].thing}).ok());  // printed before
  const ProofKept proof = got(prove(record, id));
  CHECK(proof.proof.verdict == Verdict::proved);
  CHECK(proof.life.standing == Standing::proved);
  CHECK(proof.proof.text.rfind("Proved: ", 0) == 0);
  CHECK(proof.copies.size() == 1);
  CHECK(got(prove(record, id)).life.events.size() == proof.life.events.size());  // told once
  // In force all the same, and to be withdrawn all the same.
  CHECK(differences(now(record, slate), c.after).empty());
  got(withdraw(record, id, {.reason = "new nozzle"}));
  CHECK(differences(now(record, slate), c.before).empty());
}

TEST_CASE("a proof that fails leaves a remark, and the correction applied") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  const Truth truth = frame_truth(2);
  const Correction c = got(correct(got(estimate(simulate(truth, 11))), {}, {}));
  const Id id = got(propose(record, slate, {}, c)).correction.thing;
  got(apply(record, id));
  const ProofKept proof = got(prove(record, id, simulate(truth, 12)));  // nobody set the knobs
  CHECK(proof.proof.verdict == Verdict::not_proved);
  CHECK(proof.life.standing == Standing::applied);
  const auto remarks = got(all_of<Remark>(record, "about", id));
  REQUIRE(remarks.size() == 1);
  CHECK(remarks[0].value.words == proof.proof.text);
}
