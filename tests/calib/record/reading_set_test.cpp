// Readings into the record and out again.

#include "record/reading_set.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "reading/csv.hpp"
#include "reading/features_csv.hpp"
#include "sample_bench.hpp"
#include "sample_prints.hpp"

using namespace sample;

namespace {

/// Rows as text in an order of their own, for comparing as sets. Of steel neither copy nor repeat counts.
std::vector<std::string> lines(ReadingSet set) {
  for (Reading& r : set.rows)
    if (is_steel(r.feature.kind)) r.copy = r.repeat = 1;
  const std::string csv = to_csv(set);
  std::vector<std::string> out;
  std::size_t begin = 0;
  for (std::size_t end = csv.find('\n'); end != std::string::npos; end = csv.find('\n', begin)) {
    out.push_back(csv.substr(begin, end - begin));
    begin = end + 1;
  }
  std::sort(out.begin(), out.end());
  return out;
}

KeepOptions into(const Id& setup) {
  KeepOptions options;
  options.setup = setup;
  options.at = "2026-11-10T19:00:00.000Z";
  options.printed_on = "2026-11-10";
  return options;
}

std::string said(const GatheredReadings& from) {
  std::string out;
  for (const auto& left : from.left_out) out += left.because + '\n';
  for (const auto& note : from.notes) out += note + '\n';
  return out;
}

}  // namespace

TEST_CASE("a file of readings comes back from the record as it was") {
  Truth everything = default_truth();  // holes, pegs, diagonals, heights, steel
  everything.turned_deg = {0, 90};
  everything.complete_columns = true;
  for (const Truth& truth : {frame_truth(2), everything}) {
    Record record = record_in_memory();
    const SampleBench bench(record);
    const Id slate = bench.new_setup(record, "PLA slate on Heron");
    const ReadingSet file = simulate(truth, 3);
    const KeptReadings kept = got(keep_readings(record, file, into(slate)));
    CHECK(kept.added == static_cast<int>(file.rows.size()));
    CHECK(kept.known == 0);
    CHECK(kept.copies.size() == static_cast<std::size_t>(truth.copies));

    const GatheredReadings back = got(readings_for(record, slate));
    CHECK(lines(back.readings) == lines(file));
    REQUIRE(back.origins.size() == back.readings.rows.size());
    for (std::size_t i = 0; i < back.origins.size(); ++i) {
      const Reading& r = back.readings.rows[i];
      CHECK(back.origins[i].steel == is_steel(r.feature.kind));
      if (back.origins[i].steel) continue;
      CHECK(one<StoredReading>(record, back.origins[i].thing)->value.reading_mm == r.reading_mm);
      CHECK(back.origins[i].copy == back.copies[static_cast<std::size_t>(r.copy - 1)].thing);
    }
    CHECK(said(back).empty());
  }
}

TEST_CASE("the same file taken twice adds nothing; grown it adds what is new; put right it amends") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  const ReadingSet whole = simulate(frame_truth(2), 5);
  ReadingSet part = whole;
  std::erase_if(part.rows, [](const Reading& r) { return r.repeat > 2 || r.feature.id == "SY40"; });

  const KeptReadings first = got(keep_readings(record, part, into(slate)));
  const KeptReadings again = got(keep_readings(record, part, into(slate)));
  CHECK(again.added == 0);
  CHECK(again.amended == 0);
  CHECK(again.known == static_cast<int>(part.rows.size()));
  CHECK(again.copies == first.copies);
  CHECK(again.session == first.session);
  CHECK(again.coupon == first.coupon);

  const KeptReadings grown = got(keep_readings(record, whole, into(slate)));
  CHECK(grown.added == static_cast<int>(whole.rows.size() - part.rows.size()));
  CHECK(grown.copies == first.copies);
  CHECK(grown.coupon == first.coupon);
  CHECK(lines(got(readings_for(record, slate)).readings) == lines(whole));

  ReadingSet right = whole;
  right.rows[4].reading_mm += 0.5;
  const KeptReadings amended = got(keep_readings(record, right, into(slate)));
  CHECK(amended.added == 0);
  CHECK(amended.amended == 1);
  CHECK(lines(got(readings_for(record, slate)).readings) == lines(right));
  CHECK(all<Copy>(record)->size() == 2);
  CHECK(all<MadeCoupon>(record)->size() == 1);
  CHECK(all<Session>(record)->size() == 1);

  // Another print of the same coupon is two more copies, however alike.
  const ReadingSet next = simulate(frame_truth(2), 6);
  const KeptReadings more = got(keep_readings(record, next, into(slate)));
  CHECK(more.coupon == first.coupon);
  CHECK(more.added == static_cast<int>(next.rows.size()));
  CHECK(all<Copy>(record)->size() == 4);
  CHECK(got(readings_for(record, slate, more.copies)).readings.rows.front().copy == 3);
}

TEST_CASE("only copies printed in the state of the newest one are taken, and the others are told") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  const KeptReadings old = got(keep_readings(record, simulate(frame_truth(1), 1), into(slate)));
  KeepOptions later = into(slate);
  later.printed_with.flow = 0.96;
  later.printed_on = "2026-11-12";
  const KeptReadings fresh = got(keep_readings(record, simulate(frame_truth(2), 2), later));
  const GatheredReadings from = got(readings_for(record, slate));
  CHECK(from.copies.size() == 2);
  CHECK(from.printed_with.flow == 0.96);
  CHECK(said(from).find("flow 1 instead of 0.96") != std::string::npos);
  CHECK(got(readings_for(record, slate, old.copies)).printed_with.flow == 1);
  const auto mixed = readings_for(record, slate, {old.copies[0], fresh.copies[0]});
  REQUIRE_FALSE(mixed.ok());
  CHECK(mixed.problems().front().code == Code::unanswerable);
  CHECK_FALSE(readings_for(record, slate, {Id{"nobody"}}).ok());
  CHECK_FALSE(readings_for(record, bench.new_setup(record, "another")).ok());
}

TEST_CASE("coupons that share a feature's name are told apart by their designs") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  const auto coupon = [&](const std::string& design, const std::vector<Feature>& features) {
    MadeCoupon made;
    made.design = design;
    made.parameters = "{}";
    made.features = to_features_csv(features);
    return got(add(record, made)).thing;
  };
  const std::vector<Feature> x40{{.id = "X40",
                                  .kind = Kind::outer,
                                  .axis = Axis::x,
                                  .nominal_mm = 40,
                                  .side_a_mm = {},
                                  .side_b_mm = {},
                                  .edge_a = {},
                                  .edge_b = {},
                                  .label = {}}};
  std::vector<Feature> x80 = x40;
  x80[0].nominal_mm = 80;
  ReadingSet set{"f.csv", {}};
  Reading r;
  r.feature = x40[0];
  r.reading_mm = 40.02;
  set.rows = {r};
  KeepOptions options = into(slate);
  options.coupon = coupon("frame", x40);
  got(keep_readings(record, set, options));
  set.rows[0].feature = x80[0];
  CHECK(keep_readings(record, set, options).problems().size() == 1);  // not on this coupon
  options.coupon = coupon("stair", x80);
  set.rows[0].reading_mm = 80.01;
  got(keep_readings(record, set, options));
  const GatheredReadings from = got(readings_for(record, slate));
  REQUIRE(from.readings.rows.size() == 2);
  CHECK(from.readings.rows[0].feature.id == "frame X40");
  CHECK(from.readings.rows[1].feature.id == "stair X40");
}

TEST_CASE("skipped and damaged readings stay in the record and out of the estimate") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  ReadingSet file = simulate(frame_truth(1), 1);
  file.rows[0].reading_mm = std::numeric_limits<double>::quiet_NaN();
  const KeptReadings kept = got(keep_readings(record, file, into(slate)));
  CHECK(kept.notes.size() == 1);
  CHECK(kept.added == static_cast<int>(file.rows.size()) - 1);
  StoredReading skipped;
  skipped.copy = kept.copies[0];
  skipped.feature_id = file.rows[0].feature.id;
  skipped.repeat = 9;
  skipped.standing = "damaged";
  got(add(record, skipped));
  CHECK(got(readings_for(record, slate)).readings.rows.size() == file.rows.size() - 1);
}

TEST_CASE("true sizes of steel are kept, and steel alone is a log that is not kept twice") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  ReadingSet file = simulate(frame_truth(1), 1);
  Reading gauge;
  gauge.feature.id = "G10";
  gauge.feature.kind = Kind::gauge;
  gauge.feature.axis = Axis::n;
  gauge.feature.nominal_mm = 10;
  gauge.reading_mm = 10.03;
  file.rows.push_back(gauge);
  KeepOptions options = into(slate);
  options.true_size_mm["G10"] = 9.998;
  got(keep_readings(record, file, options));
  CHECK(got(keep_readings(record, file, options)).added == 0);
  const GatheredReadings from = got(readings_for(record, slate));
  CHECK(from.true_size_mm.at("G10") == 9.998);

  ReadingSet steel{"log.csv", {gauge}};
  steel.rows[0].reading_mm = 10.01;
  const KeptReadings log = got(keep_readings(record, steel, options));
  CHECK(log.added == 1);
  CHECK(log.copies.empty());
  const KeptReadings again = got(keep_readings(record, steel, options));
  CHECK(again.added == 0);
  CHECK(again.session == log.session);
}

TEST_CASE("a copy that does not belong is refused, and nothing is kept by halves") {
  Record record = record_in_memory();
  const SampleBench bench(record);
  const Id slate = bench.new_setup(record, "PLA slate on Heron");
  KeepOptions options = into(slate);
  const KeptReadings first = got(keep_readings(record, simulate(frame_truth(1), 1), options));
  options.copy = first.copies[0];
  CHECK_FALSE(keep_readings(record, simulate(frame_truth(2), 2), options).ok());
  options = into(Id{"nobody"});
  CHECK_FALSE(keep_readings(record, simulate(frame_truth(1), 1), options).ok());
  options = into(slate);
  options.session = Id{"no such session"};
  const auto before = all<StoredReading>(record)->size();
  CHECK_FALSE(keep_readings(record, simulate(frame_truth(1), 9), options).ok());
  CHECK(all<StoredReading>(record)->size() == before);
  CHECK(all<Copy>(record)->size() == 1);
}
