// What the record teaches: fed from prints of practice printers whose machine and material are known.

#include "record/teaching.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "correct/algebra.hpp"
#include "record/reading_set.hpp"
#include "record/record_findings.hpp"
#include "sample_bench.hpp"
#include "sample_prints.hpp"

using namespace sample;

namespace {

/// A printer of machine error m and a spool of shrink factor k, with settings.
Truth print_of(double m, double k, const State& state, int copies) {
  Truth t = frame_truth(copies);
  const double gain = (1 + m) * (1 - k);
  t.scale = {gain - 1, gain - 1, 0};
  const PlanarOutcome o = outcome(State{}, state, {gain - 1, gain - 1, 0.05});
  t.scale = {o.gain_x - 1, o.gain_y - 1, 0};
  t.edge_growth_mm = o.edge_mm;
  return t;
}

Id keep(Record& record, const Id& setup, const Truth& truth, int seed, const State& state, const std::string& date) {
  KeepOptions into;
  into.setup = setup;
  into.printed_with = state;
  into.printed_on = date;
  return got(keep_readings(record, simulate(truth, static_cast<std::uint64_t>(seed)), into)).coupon;
}

Id setup_with(Record& record, const Id& printer, const Id& spool, const std::string& name) {
  Setup s;
  s.name = name;
  s.printer = printer;
  s.spool = spool;
  s.state = to_json(State{});
  return got(add(record, s, "2026-11-01T10:00:03.000Z")).thing;
}

bool has(const std::vector<Finding>& findings, const std::string& id) {
  for (const Finding& f : findings)
    if (f.id == id) return true;
  return false;
}

}  // namespace

TEST_CASE("bare errors are what printer and spool really do, before and after a correction") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  State corrected;
  corrected.size_factor = 1.0035;
  corrected.outline_offset_mm = -0.05;
  corrected.steps_per_mm.x = corrected.steps_per_mm.y = 80.2;
  const auto exact = [](Truth t) {  // copies that differ by the display's rounding only
    t.sd_feature_mm = t.sd_feature_copy_mm = t.sd_copy_edge_mm = t.sd_copy_scale = t.sd_reading_mm = 0;
    t.resolution_mm = 0.001;
    return t;
  };
  keep(record, slate, exact(print_of(0.001, 0.005, {}, 3)), 3, {}, "2026-11-05");
  keep(record, slate, exact(print_of(0.001, 0.005, corrected, 3)), 3, corrected, "2026-11-08");
  const BareSets bare = got(bare_errors(record, slate, Together::state));
  CHECK(bare.notes.empty());
  REQUIRE(bare.sets.size() == 2);
  REQUIRE(bare.sets[0].shrink);
  REQUIRE(bare.sets[1].shrink);
  CHECK(bare.sets[0].printed_on == "2026-11-05");
  const double true_shrink = 1 - 1.001 * 0.995;
  for (const BareErrors& set : bare.sets) {
    CHECK(set.shrink->value == Approx(true_shrink).margin(0.00001));
    CHECK(set.edge_mm->value == Approx(0.05).margin(0.0005));  // half a unit of the display
  }
  CHECK(got(bare_errors(record, slate, Together::print)).sets.size() == 6);
}

TEST_CASE("a new spool starts from the earlier ones of its material, at the steps in force") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id fresh = setup_with(record, bench.printer, bench.new_spool(record, "PLA white"), "PLA white on Heron");
  CHECK_FALSE(expected_of_spool(record, fresh).ok());
  CHECK_FALSE(has(got(record_findings(record, fresh)), "expected"));

  double sum = 0;
  const std::vector<double> shrinks{0.004, 0.005, 0.0045, 0.0055};
  for (std::size_t i = 0; i < shrinks.size(); ++i) {
    const std::string name = "PLA " + std::to_string(i);
    const Id setup = setup_with(record, bench.printer, bench.new_spool(record, name), name);
    keep(record, setup, print_of(0, shrinks[i], {}, 3), static_cast<int>(i + 1), {}, "2026-11-05");
    sum += shrinks[i];
  }
  const ExpectedOfSpool expected = got(expected_of_spool(record, fresh));
  CHECK(expected.earlier.size() == 4);
  CHECK(expected.notes.empty());
  const double mean = sum / static_cast<double>(shrinks.size());
  CHECK(expected.forecast.value == Approx(mean).margin(3 * 0.0004));
  CHECK(expected.forecast.lower < mean);
  CHECK(expected.forecast.upper > mean);
  CHECK(expected.size_factor == Approx(1 / (1 - expected.forecast.value)).epsilon(1e-12));

  // With other steps in force the size factor to begin with is another, the spool's own number is not.
  State steps = now(record, fresh);
  steps.steps_per_mm.x = steps.steps_per_mm.y = 80.4;
  got(by_hand(record, fresh, steps, {}));
  const ExpectedOfSpool later = got(expected_of_spool(record, fresh));
  CHECK(later.forecast.value == Approx(expected.forecast.value).epsilon(1e-12));
  CHECK(later.size_factor == Approx(expected.size_factor * 80 / 80.4).epsilon(1e-12));

  const auto findings = got(record_findings(record, fresh));
  REQUIRE(has(findings, "expected"));
  for (const Finding& f : findings)
    if (f.id == "expected") CHECK(f.text.find("expected, not measured") != std::string::npos);
}

TEST_CASE("printers and spools come apart by their differences; a measured travel fixes the level") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  Printer wren;
  wren.name = "Wren";
  const Id second = got(add(record, wren)).thing;
  const Id white = bench.new_spool(record, "PLA white");
  const double m_heron = 0.0004, m_wren = -0.0016, k_slate = 0.003, k_white = 0.006;
  int seed = 0;
  for (const auto& [printer, m] : {std::pair(bench.printer, m_heron), std::pair(second, m_wren)})
    for (const auto& [spool, k] : {std::pair(bench.spool, k_slate), std::pair(white, k_white)}) {
      ++seed;
      const Id setup = setup_with(record, printer, spool, "setup " + std::to_string(seed));
      keep(record, setup, print_of(m, k, {}, 3), seed, {}, "2026-11-05");
    }
  const Split split = got(machine_and_material(record));
  const auto machines = machine_difference(split, "Heron", 'x', "Wren", 'x');
  const auto spools = material_difference(split, "PLA slate", "PLA white");
  REQUIRE(machines);
  REQUIRE(spools);
  CHECK_FALSE(machines->rests_on_theory);
  CHECK(std::abs(machines->value - (m_heron - m_wren)) < 3 * machines->u);
  CHECK(std::abs(spools->value - (k_slate - k_white)) < 3 * spools->u);
  for (const PrinterScale& m : split.machines) CHECK_FALSE(m.assumption.empty());

  Travelled measured;
  measured.printer = bench.printer;
  measured.axis = "x";
  measured.commanded_mm = 200;
  measured.travelled_mm = 200 * (1 + m_heron);
  measured.u_mm = 0.01;
  got(add(record, measured));
  const Split with = got(machine_and_material(record));
  for (const PrinterScale& m : with.machines)
    if (m.printer == "Heron" && m.axis == 'x') CHECK(m.value == Approx(m_heron).margin(0.0001));
}

TEST_CASE("a chart by setup tells a jump, and says what it lacks before") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  CHECK_FALSE(got(setup_charts(record, slate)).shrink);
  CHECK_FALSE(got(setup_charts(record, slate)).notes.empty());
  // The same file again and again: the faces keep their errors. Print 9 on from a wet spool.
  const Truth dry = print_of(0, 0.004, {}, 8), wet = print_of(0, 0.0065, {}, 14);
  keep(record, slate, dry, 5, {}, "2026-11-05");
  const ReadingSet later = copies_from(simulate(wet, 5), 9);
  KeepOptions into;
  into.setup = slate;
  into.printed_on = "2026-11-20";
  got(keep_readings(record, later, into));
  const SetupCharts charts = got(setup_charts(record, slate));
  REQUIRE(charts.shrink);
  REQUIRE(charts.edge);
  CHECK(charts.shrink->baseline == 5);
  CHECK(charts.shrink->steps.size() == 9);
  REQUIRE(charts.shrink->first_signal);
  CHECK(charts.shrink->steps[*charts.shrink->first_signal].label == "2026-11-20");
}

TEST_CASE("a caliper's log is read with the days of its sessions") {
  Record record = record_in_memory();
  Caliper c;
  c.name = "digital 150";
  const Id caliper = got(add(record, c)).thing;
  CHECK_FALSE(caliper_log(record, caliper).ok());
  for (int day = 1; day <= 4; ++day) {
    Session session;
    session.caliper = caliper;
    session.began = "2026-11-0" + std::to_string(day) + "T19:00:00.000Z";
    const Id id = got(add(record, session)).thing;
    for (int repeat = 1; repeat <= 3; ++repeat) {
      fitwright::record::SteelReading s;
      s.caliper = caliper;
      s.session = id;
      s.kind = "zero";
      s.feature_id = "Z0";
      s.repeat = repeat;
      s.reading_mm = 0.01 * day;
      got(add(record, s));
    }
  }
  const CaliperState state = got(caliper_log(record, caliper));
  REQUIRE(state.series.size() == 1);
  CHECK(state.series[0].sessions.size() == 4);
  REQUIRE(state.latest_zero);
  CHECK(state.latest_zero->error_mm == Approx(0.04));
  REQUIRE(state.drift);
  CHECK(state.drift->per_month_mm > 0.2);  // 0.01 mm a day
}
