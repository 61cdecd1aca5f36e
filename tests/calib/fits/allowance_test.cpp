// Sizes to draw: the closed form against simulation, and what must hold of any answer.

#include "fits/allowance.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "model/estimate.hpp"
#include "practice/simulate.hpp"

namespace {

using namespace fitwright;

TrialSet ladder(double s_mm, int copies, bool measured) {
  TrialSet set{"ladder", {}};
  const double t[] = {-0.04, 0.06, 0.17, 0.31};
  for (int copy = 1; copy <= copies; ++copy)
    for (int i = 0; i < 15; ++i) {
      const double c = -0.2 + 0.05 * i;
      const double felt = c + s_mm * std::sin(7.0 * i + 3.0 * copy);  // spread without chance
      int g = 0;
      for (const double each : t) g += felt > each;
      FitTrial trial{c, static_cast<Grade>(g), copy, {}, 8.0, 0, {}};
      if (measured) trial.measured_clearance_mm = c;
      set.rows.push_back(trial);
    }
  return set;
}

AllowanceBasis basis(const Thresholds& thresholds) {
  AllowanceBasis out;
  out.estimates = estimate(simulate(default_truth(), 1)).value();
  out.thresholds = thresholds;
  return out;
}

AllowanceRequest request(SizeKind kind, double nominal, Fit fit) {
  AllowanceRequest r;
  r.kind = kind;
  r.nominal_mm = nominal;
  r.fit = fit;
  r.mate.low_mm = r.mate.high_mm = nominal;
  return r;
}

}  // namespace

TEST_CASE("closed form and simulation agree") {
  const std::vector<Thresholds> ways{assumed_thresholds(),
                                     *thresholds_from(ladder(0.04, 2, true), ClearanceUsed::measured),
                                     *thresholds_from(ladder(0.06, 1, false), ClearanceUsed::nominal)};
  constexpr int runs = 16000;
  std::uint64_t seed = 1;
  for (const Thresholds& thresholds : ways)
    for (const SizeKind kind : {SizeKind::hole, SizeKind::peg, SizeKind::slot, SizeKind::tab})
      for (const MateKind mate : {MateKind::limits, MateKind::measured, MateKind::printed}) {
        const AllowanceBasis b = basis(thresholds);
        AllowanceRequest r = request(kind, 8, Fit::sliding);
        r.mate.kind = mate;
        if (mate == MateKind::limits) r.mate.low_mm = 7.9;
        r.mate.inside = !is_inside(kind);
        const double clearance = 0.1;
        const auto form = chances_for(b, r, clearance);
        const auto seen = chances_simulated(b, r, clearance, runs, seed++);
        REQUIRE((form.ok() && seen.ok()));
        INFO(word(kind) << " mate " << static_cast<int>(mate) << " used " << word(thresholds.used));
        for (std::size_t k = 0; k < grade_count; ++k) {
          // 4 standard deviations of the share, and 0.006 for the six nodes of the variance and limits taken as normal.
          const double margin = 4 * std::sqrt(std::max((*form)[k], 0.01) / runs) + 0.006;
          CHECK((*seen)[k] == Approx((*form)[k]).margin(margin));
        }
      }
}

TEST_CASE("the size drawn comes out as meant, and a looser fit is drawn looser") {
  const AllowanceBasis b = basis(assumed_thresholds());
  for (const SizeKind kind : {SizeKind::hole, SizeKind::peg, SizeKind::slot, SizeKind::tab}) {
    double before = 0;
    for (const Fit fit : all_fits) {
      const auto a = allowance(b, request(kind, 8, fit));
      REQUIRE(a.ok());
      const double looser = is_inside(kind) ? a->draw_mm : -a->draw_mm;
      if (fit != Fit::press) CHECK(looser > before);
      before = looser;
      CHECK(std::abs(a->printed_mm.value - 8) == Approx(std::abs(a->clearance_mm.value)).margin(1e-9));
      CHECK(a->draw_range_mm.lower <= a->draw_mm + 1e-9);
      CHECK(a->draw_range_mm.upper >= a->draw_mm - 1e-9);
      double all = 0;
      for (const double p : a->chance_of) all += p;
      CHECK(all == Approx(1).margin(1e-6));
      CHECK(a->chance == Approx(a->chance_of[static_cast<std::size_t>(grade_of(fit))]).margin(1e-6));
      double shares = 0;
      for (const auto& limit : a->limits) shares += limit.share;
      CHECK(shares == Approx(1).margin(1e-9));
      CHECK(a->reasons.size() >= 4);
      CHECK(a->cautions.empty() == (fit != Fit::press));
    }
  }
}

TEST_CASE("a loose fit reaches what is asked with the least clearance; others may not, and say so") {
  const AllowanceBasis b = basis(assumed_thresholds());
  auto r = request(SizeKind::hole, 8, Fit::loose);
  for (const double wanted : {0.5, 0.9, 0.99}) {
    r.wanted_chance = wanted;
    const auto a = allowance(b, r);
    REQUIRE(a.ok());
    CHECK(a->reached);
    CHECK(a->chance == Approx(wanted).margin(0.002));
  }
  r.fit = Fit::snug;
  r.wanted_chance = 0.95;
  const auto a = allowance(b, r);
  REQUIRE(a.ok());
  CHECK_FALSE(a->reached);
  bool told = false;
  for (const std::string& reason : a->reasons) told = told || reason.find("95 in 100 cannot be promised") == 0;
  CHECK(told);
}

TEST_CASE("both parts printed: the clearance is shared as asked") {
  const AllowanceBasis b = basis(assumed_thresholds());
  auto r = request(SizeKind::hole, 8, Fit::sliding);
  r.mate.kind = MateKind::printed;
  double whole = 0;
  for (const double share : {0.0, 0.5, 1.0}) {
    r.share = share;
    const auto a = allowance(b, r);
    REQUIRE(a.ok());
    REQUIRE(a->mate_draw_mm);
    CHECK(a->printed_mm.value - 8 == Approx(share * a->clearance_mm.value).margin(1e-9));
    const double clearance = a->draw_mm - *a->mate_draw_mm;
    if (whole != 0) CHECK(clearance == Approx(whole).margin(0.01));
    whole = clearance;
  }
}

TEST_CASE("what was read of the mate with the same caliper cancels the caliper's zero") {
  // The same print, read with a caliper that shows 0.05 mm too much, with its zero not known.
  Truth truth = default_truth();
  truth.features.erase(std::remove_if(truth.features.begin(), truth.features.end(),
                                      [](const TrueFeature& f) { return is_steel(f.kind); }),
                       truth.features.end());
  const auto drawn = [&](double zero_mm) {
    Truth other = truth;
    other.caliper_zero_mm = zero_mm;
    AllowanceBasis b;
    b.estimates = estimate(simulate(other, 3)).value();
    b.thresholds = assumed_thresholds();
    auto r = request(SizeKind::hole, 8, Fit::sliding);
    r.mate.kind = MateKind::measured;
    r.mate.low_mm = r.mate.high_mm = 8 + zero_mm;
    return allowance(b, r).value().draw_mm;
  };
  CHECK(drawn(0.05) == Approx(drawn(0.0)).margin(0.012));
}

TEST_CASE("a state other than the coupon's changes what is drawn by what it does") {
  AllowanceBasis b = basis(assumed_thresholds());
  const auto r = request(SizeKind::slot, 20, Fit::sliding);
  const double before = allowance(b, r)->draw_mm;
  b.now.outline_offset_mm = -0.1;  // outlines drawn in: the slot comes out 0.2 wider
  CHECK(allowance(b, r)->draw_mm == Approx(before - 0.2).margin(0.003));
}

TEST_CASE("questions that cannot be answered say why") {
  AllowanceBasis b = basis(assumed_thresholds());
  auto r = request(SizeKind::hole, 1.5, Fit::sliding);
  CHECK(allowance(b, r).problems().front().code == Code::unanswerable);
  r = request(SizeKind::hole, -1, Fit::sliding);
  r.wanted_chance = 2;
  r.share = 3;
  CHECK(allowance(b, r).problems().size() == 4);
  CHECK(allowance(b, r).problems().front().code == Code::usage);
  Truth lengths = default_truth();
  lengths.features.erase(std::remove_if(lengths.features.begin(), lengths.features.end(),
                                        [](const TrueFeature& f) {
                                          return f.kind == Kind::hole || f.kind == Kind::peg || f.kind == Kind::pin;
                                        }),
                         lengths.features.end());
  b.estimates = estimate(simulate(lengths, 1)).value();
  const auto none = allowance(b, request(SizeKind::hole, 8, Fit::sliding));
  REQUIRE_FALSE(none.ok());
  CHECK(none.problems().front().text().find("print and read the coupon bores") != std::string::npos);
  CHECK(allowance(b, request(SizeKind::slot, 8, Fit::sliding)).ok());
}
