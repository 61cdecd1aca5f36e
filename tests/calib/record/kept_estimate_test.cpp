// Estimates of a setup, kept once; and what coupons cost.

#include "record/kept_estimate.hpp"

#include <catch2/catch.hpp>

#include "record/copy_history.hpp"
#include "record/cost.hpp"
#include "report/estimate_report.hpp"
#include "sample_bench.hpp"
#include "sample_prints.hpp"

using namespace sample;

TEST_CASE("the content hash gives FNV-1a's published values") {
  // http://www.isthe.com/chongo/tech/comp/fnv, 128 bits: offset basis, and the test strings of draft-eastlake-fnv.
  CHECK(content_hash("") == "6c62272e07bb014262b821756295c58d");
  CHECK(content_hash("a") == "d228cb696f1a8caf78912b704e4a8964");
  CHECK(content_hash("foobar") == "343e1662793c64bf6f0d3597ba446f18");
}

TEST_CASE("an estimate from the record equals that from the file, and is kept once") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  const ReadingSet file = simulate(frame_truth(2), 4);
  KeepOptions into;
  into.setup = slate;
  const KeptReadings kept = got(keep_readings(record, file, into));
  const SetupEstimate e = got(estimate_setup(record, slate));
  const Estimates plain = got(estimate(file));
  for (const Parameter& p : plain.parameters) {
    INFO(p.name);
    REQUIRE(e.estimates.find(p.name));
    CHECK(e.estimates.find(p.name)->value == Approx(p.value).margin(1e-12));
    CHECK(e.estimates.find(p.name)->u == Approx(p.u).epsilon(1e-9));
  }
  CHECK(e.copy_prior.find("typical") != std::string::npos);

  const std::string result = estimate_json(e.estimates, e.from.readings, {});
  const auto first = got(keep_estimate(record, e, result, "0.3"));
  CHECK(got(keep_estimate(record, e, result, "0.3")).thing == first.thing);
  CHECK(got(keep_estimate(record, e, result, "0.4")).thing != first.thing);
  CHECK(got(copies_of(first.value)) == kept.copies);
  CHECK(got(estimate_setup(record, slate)).input_hash == e.input_hash);
  EstimateSetupOptions one_copy;
  one_copy.copies = {kept.copies[0]};
  CHECK(got(estimate_setup(record, slate, one_copy)).input_hash != e.input_hash);
}

TEST_CASE("from five earlier copies on, a printer's own scatter between copies is assumed") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  const Id clear = bench.new_setup(record, "PETG clear on Heron");
  KeepOptions into;
  into.setup = slate;
  got(keep_readings(record, simulate(frame_truth(5), 4), into));
  into.setup = clear;
  got(keep_readings(record, simulate(frame_truth(1), 8), into));
  const SetupEstimate e = got(estimate_setup(record, clear));
  CHECK(e.copy_prior.find("own history") != std::string::npos);
  CHECK(e.options.copy_prior.edge_sd_mm != CopyPrior{}.edge_sd_mm);
  // An estimate is not its own prior.
  CHECK(got(estimate_setup(record, slate)).copy_prior.find("typical") != std::string::npos);
  EstimateSetupOptions plain;
  plain.use_history = false;
  CHECK(got(estimate_setup(record, clear, plain)).options.copy_prior.edge_sd_mm == CopyPrior{}.edge_sd_mm);
}

TEST_CASE("grams and cost: by volume, the material's density and the spool's price") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  Material petg;
  petg.name = "PETG";
  petg.density_g_cm3 = 1.27;
  Spool clear;
  clear.material = got(add(record, petg)).thing;
  clear.name = "PETG clear";
  clear.price_per_kg = 24;
  clear.currency = "EUR";
  Setup s;
  s.name = "PETG clear on Heron";
  s.printer = bench.printer;
  s.spool = got(add(record, clear)).thing;
  s.state = to_json(State{});
  const Id setup = got(add(record, s)).thing;
  MadeCoupon frame;
  frame.design = "frame";
  frame.parameters = R"({"density_g_cm3": 1.25})";
  frame.grams = 12.5;  // 10 cm3
  MadeCoupon unknown = frame;
  unknown.design = "from file";
  unknown.grams.reset();
  Copy copy;
  copy.setup = setup;
  for (const MadeCoupon& made : {frame, frame, unknown}) {
    copy.coupon = got(add(record, made)).thing;
    got(add(record, copy));
    ++copy.print;
  }
  const CalibrationCost cost = got(cost_of(record, setup));
  CHECK(cost.copies.size() == 3);
  CHECK(cost.grams == Approx(2 * 12.7).epsilon(1e-12));
  REQUIRE(cost.money);
  CHECK(*cost.money == Approx(2 * 12.7 * 0.024).epsilon(1e-12));
  CHECK(cost.unknown == 1);
  CHECK_FALSE(cost.copies[2].money);
  CHECK(cost.price_basis == "24 EUR per kg, PETG clear; density 1.27 g/cm3");
  frame.parameters = "";
  CHECK(*grams_of(frame, 1.24) == 12.5);
}
