// Fits: ladders of the record, grades with undo, what the trials say, and an answer that is the one of the library.

#include "bench/fits_view.hpp"

#include <catch2/catch.hpp>

#include "bench/first_start.hpp"
#include "bench/make_view.hpp"
#include "calib/record/sample_prints.hpp"
#include "fits/hardware.hpp"
#include "record/reading_set.hpp"

using namespace fitwright;

namespace {

Bench bench_with_setup() {
  Bench bench(record::record_in_memory());
  const auto begun = begin_setup(bench.record(), {});
  REQUIRE(begun.ok());
  REQUIRE(bench.put_setup(begun->setup).ok());
  return bench;
}

record::Id setup_of(const Bench& bench) { return bench.setup()->setup.thing; }

FitsView seen(Bench& bench) {
  auto view = fits_view(bench.record(), setup_of(bench));
  REQUIRE(view.ok());
  return *std::move(view);
}

void print_rail(Bench& bench, const std::string& design = "rail") {
  const auto coupon = make_coupon(design);
  REQUIRE(coupon.ok());
  REQUIRE(printed(bench, *coupon, 0, "2026-11-25").ok());
}

/// How a place feels whose thresholds lie at -0.05, 0.05, 0.15 and 0.30 mm.
Grade feel(double clearance_mm) {
  int grade = 0;
  for (const double t : {-0.05, 0.05, 0.15, 0.3}) grade += clearance_mm > t;
  return static_cast<Grade>(grade);
}

}  // namespace

TEST_CASE("fits: without a setup it says what will be here, with one what to print, and answers from typical values") {
  Bench none(record::record_in_memory());
  const auto empty = fits_view(none.record(), {});
  REQUIRE(empty.ok());
  CHECK_FALSE(empty->empty.empty());
  CHECK(fit_answer(*empty, {}).wrong == empty->empty);

  Bench bench = bench_with_setup();
  const FitsView view = seen(bench);
  CHECK(view.empty.empty());
  CHECK(view.ladders.empty());
  CHECK_FALSE(view.no_ladder.empty());
  CHECK(view.thresholds.assumed);
  CHECK(view.curves.marks.empty());
  REQUIRE(view.curves.lines.size() == grade_count);
  for (const PlotLine& line : view.curves.lines) CHECK(line.dashed);
  CHECK_FALSE(view.no_basis.empty());  // no readings: nothing to answer from
  CHECK(fit_answer(view, {}).wrong == view.no_basis);
}

TEST_CASE("fits: the chances of the five grades add up to 100 % wherever they are drawn") {
  const PlotScene scene = chance_plot(assumed_thresholds(), {});
  for (std::size_t i = 0; i < scene.lines.front().points.size(); ++i) {
    double sum = 0;
    for (const PlotLine& line : scene.lines) sum += line.points[i].y;
    CHECK(sum == Approx(100).margin(1e-6));
  }
}

TEST_CASE("fits: a ladder is graded from the loosest place, each grade can be taken back and changed") {
  Bench bench = bench_with_setup();
  print_rail(bench, "frame");
  CHECK(seen(bench).ladders.empty());
  print_rail(bench);
  const FitsView view = seen(bench);
  REQUIRE(view.ladders.size() == 1);
  const Ladder& ladder = view.ladders.front();
  CHECK(ladder.places.size() == 2 * 15);
  CHECK(ladder.places[0].id == "S0.50");
  CHECK(ladder.places[0].mate == "P8a");
  CHECK(ladder.places[29].id == "S-0.20");
  CHECK(ladder.places[29].mate == "P8b");
  CHECK(ladder.next() == 0);
  CHECK_FALSE(ladder.cautions.empty());

  REQUIRE(grade_place(bench, ladder, 0, Grade::rattles).ok());
  CHECK(seen(bench).ladders.front().next() == 1);
  REQUIRE(grade_place(bench, seen(bench).ladders.front(), 0, Grade::slides).ok());
  const auto grade_now = [&] {
    const auto trial = seen(bench).ladders.front().places.front().trial;
    return trial ? trial->value.grade : -1;
  };
  CHECK(grade_now() == 3);
  REQUIRE(bench.undo().ok());
  CHECK(grade_now() == 4);
  REQUIRE(bench.undo().ok());
  CHECK(grade_now() == -1);
  REQUIRE(bench.redo().ok());
  CHECK(grade_now() == 4);
  REQUIRE(bench.redo().ok());
  CHECK(grade_now() == 3);
}

TEST_CASE("fits: all places graded give the thresholds of the library, and every trial is a mark on its curve") {
  Bench bench = bench_with_setup();
  print_rail(bench);
  FitsView now = seen(bench);
  for (std::size_t i = 0; i < 30; ++i) {
    const Ladder ladder = now.ladders.front();
    REQUIRE(ladder.next() == i);
    REQUIRE(grade_place(bench, ladder, i, feel(ladder.places[i].clearance_mm)).ok());
    auto next = fits_view(bench.record(), setup_of(bench), &now);
    REQUIRE(next.ok());
    now = *std::move(next);
  }
  const FitsView view = seen(bench);
  CHECK(now.told == view.told);  // what is taken over is what is found anew
  CHECK(now.ladders.front().next() == 30);
  CHECK(view.ladders.front().next() == 30);
  const auto trials = trials_of(bench.record(), setup_of(bench));
  REQUIRE(trials.ok());
  REQUIRE(trials->rows.size() == 30);
  CHECK(trials->rows.front().diameter_mm == 8);
  const auto expected = thresholds_from(*trials, ClearanceUsed::nominal);
  REQUIRE(expected.ok());
  const std::array<double, 4> truth{-0.05, 0.05, 0.15, 0.3};
  for (std::size_t k = 0; k < 4; ++k) {
    CHECK(view.thresholds.t_mm[k].value == expected->t_mm[k].value);
    CHECK(std::abs(view.thresholds.t_mm[k].value - truth[k]) < 0.05);  // one step of the ladder
  }
  REQUIRE(view.curves.marks.size() == 30);
  for (const PlotMark& mark : view.curves.marks) {
    const FitTrial& trial = trials->rows[mark.rows.front()];
    CHECK(mark.at.x == trial.clearance_mm);
    CHECK(mark.at.y ==
          Approx(100 * chances(view.thresholds, trial.clearance_mm)[static_cast<std::size_t>(trial.grade)]));
    CHECK(mark.at.y > 40);  // separated perfectly: what was felt is what is likely
  }
}

TEST_CASE("fits: where place and peg were read, their difference is the measured clearance of the trial") {
  Bench bench = bench_with_setup();
  print_rail(bench);
  const record::Id copy = seen(bench).ladders.front().copy;
  record::Caliper caliper;
  caliper.name = "hundredths";
  const auto its = record::add(bench.record(), caliper);
  REQUIRE(its.ok());
  const auto session =
      record::add(bench.record(), record::Session{setup_of(bench), its->thing, record::now_utc(), {}, {}});
  REQUIRE(session.ok());
  for (const auto& [id, first, second] : {std::tuple{"S0.50", 8.38, 8.42}, std::tuple{"P8a", 7.94, 7.90}})
    for (const int repeat : {1, 2}) {
      record::StoredReading r;
      r.copy = copy, r.session = session->thing, r.feature_id = id, r.repeat = repeat;
      r.reading_mm = repeat == 1 ? first : second;
      REQUIRE(record::add(bench.record(), r).ok());
    }
  const Ladder ladder = seen(bench).ladders.front();
  REQUIRE(ladder.places.front().measured_mm);
  CHECK(*ladder.places.front().measured_mm == Approx(0.48).margin(1e-12));
  CHECK_FALSE(ladder.places[1].measured_mm);
  REQUIRE(grade_place(bench, ladder, 0, Grade::rattles).ok());
  CHECK(trials_of(bench.record(), setup_of(bench))->rows.front().measured_clearance_mm.value() == Approx(0.48));
}

TEST_CASE("fits: the answer is the library's, in words; what is wrong is said in a sentence") {
  Bench bench = bench_with_setup();
  record::KeepOptions into;
  into.setup = setup_of(bench);
  REQUIRE(record::keep_readings(bench.record(), simulate(default_truth(), 1), into).ok());
  REQUIRE(bench.look_again().ok());
  const FitsView view = seen(bench);
  INFO(view.no_basis);
  REQUIRE(view.basis);
  FitQuestion question{SizeKind::hole, Partner::bought, "bearing 608", fitwright::Fit::press, "80"};
  const FitAnswer answer = fit_answer(view, question);
  INFO(answer.wrong);
  REQUIRE(answer.wrong.empty());
  AllowanceRequest request;
  request.nominal_mm = 22;
  request.fit = fitwright::Fit::press;
  request.wanted_chance = 0.8;
  const Hardware bearing = find_hardware("bearing 608").front();
  for (const HardwareSize& size : bearing.sizes)
    if (!size.inside) {
      request.mate = mate_of(bearing, size);
      break;
    }
  const auto expected = allowance(view.basis->basis, request);
  REQUIRE(expected.ok());
  CHECK(answer.size == fmt::format("{:.2f} mm", expected->draw_mm));
  CHECK(answer.chance.starts_with(fmt::format("{:.0f} in 100", 100 * expected->chance)));
  CHECK(answer.reached == expected->reached);
  CHECK_FALSE(answer.reasons.empty());
  CHECK_FALSE(answer.limits.empty());
  CHECK_FALSE(answer.cautions.empty());

  const auto wrong = [&](Partner partner, const std::string& part, const std::string& chance = "90") {
    return fit_answer(view, {SizeKind::hole, partner, part, fitwright::Fit::sliding, chance}).wrong;
  };
  for (const std::string& said :
       {wrong(Partner::bought, ""), wrong(Partner::bought, "flying carpet"), wrong(Partner::read, "bearing 608"),
        wrong(Partner::printed, " "), wrong(Partner::bought, "8", "sure"), wrong(Partner::bought, "8", "100")}) {
    CHECK_FALSE(said.empty());
    CHECK(said.ends_with("."));
  }
  CHECK(wrong(Partner::bought, "8").empty());
  CHECK(wrong(Partner::read, "7.98 mm").empty());
  CHECK(fit_answer(view, {SizeKind::peg, Partner::printed, "8", fitwright::Fit::sliding, "90"})
            .sentence.find("other part") != std::string::npos);
}
