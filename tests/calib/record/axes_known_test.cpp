// What the record knows of a printer's axes: the drive, and travels measured since the settings last changed.

#include "record/axes_known.hpp"

#include <catch2/catch.hpp>

#include "record/proof.hpp"
#include "sample_bench.hpp"

using namespace sample;

namespace {

void travelled(Record& record, const Id& printer, const char* axis, double mm, const char* at) {
  Travelled t;
  t.printer = printer;
  t.axis = axis;
  t.commanded_mm = 150;
  t.travelled_mm = mm;
  (void)got(add(record, t, at));
}

}  // namespace

TEST_CASE("a travel counts until the settings change, the newest of an axis wins, and the drive is read") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id setup = bench.new_setup(record, "slate on Heron");
  travelled(record, bench.printer, "x", 150.3, "2026-11-02T10:00:00.000Z");
  travelled(record, bench.printer, "x", 150.12, "2026-11-02T11:00:00.000Z");
  travelled(record, bench.printer, "y", 149.95, "2026-11-02T12:00:00.000Z");
  AxesKnown known = got(axes_known(record, bench.printer, got(state_in_force(record, setup))));
  CHECK(known.drive.empty());
  REQUIRE(known.travel.size() == 2);
  CHECK(known.travel.at('x').travelled_mm == 150.12);
  CHECK(known.notes.size() == 3);

  State after = now(record, setup);
  after.steps_per_mm.x = 79.9;
  (void)got(apply(record, proposed(record, setup, now(record, setup), after)));
  // In the very moment of the change: an event may be dated a millisecond ahead of the clock, to keep its order.
  travelled(record, bench.printer, "y", 150.01, got(state_in_force(record, setup)).since.c_str());
  known = got(axes_known(record, bench.printer, got(state_in_force(record, setup))));
  REQUIRE(known.travel.size() == 1);
  CHECK(known.travel.at('y').travelled_mm == 150.01);
  CHECK(known.notes.front().find("settings were changed since") != std::string::npos);

  const Kept<Printer> seen = got(one<Printer>(record, bench.printer));
  Printer printer = seen.value;
  printer.drive = R"({"x":{"pulley_teeth":20,"belt_pitch_mm":2}})";
  (void)got(amend(record, seen, printer, "read off the pulley"));
  known = got(axes_known(record, bench.printer, got(state_in_force(record, setup))));
  REQUIRE(known.drive.contains('x'));
  CHECK(got(theory_steps_per_mm(known.drive.at('x'))) == Approx(80));  // 200 x 16 / (20 x 2)
}

TEST_CASE("a proof is read back from the event it was kept with") {
  const auto proof = proof_from(
      R"({"verdict":"proved","places":[{"place":"x100","foretold_mm":0.01,"without_mm":-0.3,"measured_mm":0.03,)"
      R"("u_foretold_mm":0.02,"u_measured_mm":0.02,"half_mm":0.06,"inside":true}],"copies":[]})");
  REQUIRE(proof);
  CHECK(proof->verdict == Verdict::proved);
  REQUIRE(proof->places.size() == 1);
  CHECK(proof->places[0].place == "x100");
  CHECK(proof->places[0].measured_mm == 0.03);
  CHECK(proof->places[0].inside);
  CHECK(proof->places[0].tells);
  CHECK_FALSE(proof_from("").has_value());
  CHECK_FALSE(proof_from("[1]").has_value());
  CHECK_FALSE(proof_from("{\"verdict\":3}").has_value());
}
