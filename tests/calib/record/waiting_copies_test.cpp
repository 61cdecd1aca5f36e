// Readings of a file find the copies they belong to.

#include "record/waiting_copies.hpp"

#include <catch2/catch.hpp>

#include "reading/features_csv.hpp"
#include "sample_bench.hpp"
#include "sample_prints.hpp"

using namespace sample;

namespace {

/// A setup with the frame of sample_prints as its coupon.
struct WaitingBench {
  Record record = record_in_memory();
  SampleBench bench{record};
  Id setup = bench.new_setup(record, "PLA slate on Heron");
  Id coupon;

  WaitingBench() {
    MadeCoupon frame;
    frame.design = "frame";
    frame.parameters = "{}";
    std::vector<Feature> features;
    for (const TrueFeature& f : frame_truth(1).features)
      if (f.kind != Kind::zero) features.push_back(drawn_feature(f));
    frame.features = to_features_csv(features);
    coupon = got(add(record, frame)).thing;
  }

  Id copy(int print, int turned_deg = 0) {
    Copy c;
    c.setup = setup;
    c.coupon = coupon;
    c.print = print;
    c.turned_deg = turned_deg;
    c.state = to_json(State{});
    return got(add(record, c)).thing;
  }

  KeptReadings keep(const ReadingSet& file) {
    KeepOptions into;
    into.setup = setup;
    return got(keep_on_waiting_copies(record, file, into));
  }

  std::size_t copies() { return got(all_of<Copy>(record, "setup", setup)).size(); }
  std::size_t coupons() { return got(all<MadeCoupon>(record)).size(); }
};

ReadingSet only(ReadingSet set, int copy) {
  std::erase_if(set.rows, [&](const Reading& r) { return r.copy != copy; });
  for (Reading& r : set.rows) r.copy = 1;
  return set;
}

}  // namespace

TEST_CASE("copies that wait are read in the order of their prints, and a file again adds nothing") {
  WaitingBench b;
  const Id second = b.copy(2), first = b.copy(1);
  const ReadingSet file = simulate(frame_truth(2), 4);
  const KeptReadings kept = b.keep(file);
  CHECK(kept.copies == std::vector<Id>{first, second});
  CHECK(kept.added == static_cast<int>(file.rows.size()));
  CHECK(got(all<Session>(b.record)).size() == 1);
  const KeptReadings again = b.keep(file);
  CHECK(again.copies == kept.copies);
  CHECK(again.added == 0);
  CHECK(again.known == kept.added);
  CHECK(b.copies() == 2);
  CHECK(b.coupons() == 1);
}

TEST_CASE("a file that grew: the copy read before is known, the new one goes to the copy that waits") {
  WaitingBench b;
  const Id first = b.copy(1);
  const ReadingSet file = simulate(frame_truth(2), 4);
  b.keep(only(file, 1));
  const Id second = b.copy(2);
  const KeptReadings kept = b.keep(file);
  CHECK(kept.copies == std::vector<Id>{first, second});
  CHECK(kept.known > 0);
  CHECK(kept.added > 0);
  CHECK(b.copies() == 2);
}

TEST_CASE("how a copy lay counts; where none waits a copy of the same coupon is made") {
  WaitingBench b;
  b.copy(1, 90);
  const ReadingSet file = simulate(frame_truth(1), 4);  // not turned
  const KeptReadings kept = b.keep(file);
  CHECK(b.copies() == 2);
  CHECK(kept.coupon == b.coupon);
  CHECK(b.coupons() == 1);
  CHECK(got(one<Copy>(b.record, kept.copies.front())).value.print == 2);
}

TEST_CASE("nominals of six digits are those of the coupon; other features are another coupon's") {
  WaitingBench b;
  const Id waits = b.copy(1);
  ReadingSet file = simulate(frame_truth(1), 4);
  for (Reading& r : file.rows)
    if (r.feature.nominal_mm == 100) r.feature.nominal_mm = 100.0004;
  CHECK(b.keep(file).copies == std::vector<Id>{waits});
  ReadingSet other = simulate(frame_truth(1), 5);
  for (Reading& r : other.rows)
    if (r.feature.nominal_mm == 100) r.feature.nominal_mm = 90;
  b.copy(2);
  CHECK(b.keep(other).coupon != b.coupon);
  CHECK(b.coupons() == 2);
}

TEST_CASE("with the copy named the file goes there, and what does not fit it is told") {
  WaitingBench b;
  b.copy(1);
  const Id third = b.copy(3);
  KeepOptions into;
  into.setup = b.setup;
  into.copy = third;
  const ReadingSet file = simulate(frame_truth(1), 4);
  CHECK(got(keep_on_waiting_copies(b.record, file, into)).copies == std::vector<Id>{third});
  ReadingSet other = file;
  other.rows.front().feature.id = "Q7";
  const auto refused = keep_on_waiting_copies(b.record, other, into);
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.problems().front().code == Code::bad_input);
  CHECK(refused.problems().front().what.find("Q7") != std::string::npos);
}
