// A caliper's log: dates, drift, repeatability, the uncertainty of a reading, and what it can judge.

#include "learn/caliper.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "calib/learn/learning.hpp"
#include "stats/intervals.hpp"
#include "stats/least_squares.hpp"

using namespace fitwright;
using learning::margin;
using learning::Random;

namespace {

SteelReading zero(int day, double reading) { return {day, Kind::zero, "", 0, reading}; }
SteelReading gauge(int day, double reading) { return {day, Kind::gauge, "block 50", 50, reading}; }

bool says(const CaliperState& s, const std::string& part) {
  for (const std::string& n : s.notes)
    if (n.find(part) != std::string::npos) return true;
  return false;
}

}  // namespace

TEST_CASE("caliper: dates") {
  CHECK(day_number("1970-01-01") == 0);
  CHECK(day_number("2000-03-01") == 11017);  // POSIX time 951868800
  CHECK(day_number("2026-11-25T18:30:00Z") == day_number("2026-11-25"));
  CHECK(day_number("2024-02-29").has_value());
  for (const char* wrong :
       {"", "2026-11-2", "2026-13-01", "2026-02-29", "2026/11/25", "25.11.2026", "2026-11-25x", "2026-1a-25"})
    CHECK_FALSE(day_number(wrong));
  for (int day = -1000; day < 40000; day += 37) CHECK(day_number(date_of(day)) == day);
}

TEST_CASE("caliper: the budget of a reading, by hand") {
  // Three sessions, two repeats each. Differences of repeats 0.01, 0, 0.02: pooled variance (0.00005 + 0 + 0.0002)/3.
  // Session means 0.005, 0.01, 0.03.
  const CaliperState s =
      caliper_state({zero(0, 0.00), zero(0, 0.01), zero(30, 0.01), zero(30, 0.01), zero(60, 0.02), zero(60, 0.04)})
          .value();
  CHECK(s.repeatability_df == 3);
  CHECK(s.repeatability_mm == Approx(std::sqrt(0.00025 / 3)).epsilon(1e-12));
  CHECK_FALSE(s.repeatability_assumed);
  REQUIRE(s.latest_zero);
  CHECK(s.latest_zero->day == 60);
  CHECK(s.latest_zero->error_mm == Approx(0.03));
  const double mean = 0.015,
               scatter =
                   std::sqrt((std::pow(0.005 - mean, 2) + std::pow(0.01 - mean, 2) + std::pow(0.03 - mean, 2)) / 2);
  CHECK(s.zero_scatter_mm == Approx(scatter).epsilon(1e-12));
  REQUIRE(s.budget.size() == 4);
  const double display = 0.01 / std::sqrt(12.0);
  CHECK(s.budget[0].u_mm == Approx(display));
  const double u2 = display * display + 0.00025 / 3 + scatter * scatter + 0.002 * 0.002;
  CHECK(s.u_mm == Approx(std::sqrt(u2)).epsilon(1e-12));
  const double df = u2 * u2 / (std::pow(0.00025 / 3, 2) / 3 + std::pow(scatter, 4) / 2);
  CHECK(s.df == Approx(df).epsilon(1e-9));
  CHECK(s.expanded_mm == Approx(coverage_factor(0.95, df) * std::sqrt(u2)).epsilon(1e-9));
  CHECK(says(s, "Closed, the jaws last read +0.03 mm (1970-03-02)"));
}

TEST_CASE("caliper: drift is the straight line through the sessions") {
  const std::vector<int> days{0, 20, 33, 61, 90, 150};
  const std::vector<double> error{0.00, 0.01, 0.00, 0.02, 0.02, 0.05};
  std::vector<SteelReading> log;
  Eigen::MatrixXd x(6, 2);
  Eigen::VectorXd y(6);
  for (std::size_t i = 0; i < 6; ++i) {
    log.push_back(zero(days[i], error[i]));
    x.row(static_cast<Eigen::Index>(i)) << 1, days[i] / (365.25 / 12);
    y[static_cast<Eigen::Index>(i)] = error[i];
  }
  const LeastSquares line = least_squares(x, y).value();
  const CaliperState s = caliper_state(log).value();
  REQUIRE(s.drift);
  CHECK(s.drift->per_month_mm == Approx(line.coefficients[1]).epsilon(1e-9));
  CHECK(s.drift->u == Approx(line.standard_errors[1]).epsilon(1e-9));
  CHECK(s.drift->df == 4);
  CHECK(s.drift->upper ==
        Approx(line.coefficients[1] + coverage_factor(0.95, 4) * line.standard_errors[1]).epsilon(1e-9));
  CHECK(s.drift->established);
  CHECK(says(s, "The zero drifts by +0.01 mm a month (±"));
  CHECK(s.repeatability_assumed);

  // Dates may come in any order; two sessions make no line.
  std::reverse(log.begin(), log.end());
  CHECK(caliper_state(log).value().drift->per_month_mm == Approx(s.drift->per_month_mm).epsilon(1e-12));
  CHECK_FALSE(caliper_state({zero(0, 0), zero(9, 0.01)}).value().drift);
}

TEST_CASE("caliper: drift intervals hold the truth as often as promised") {
  constexpr int runs = 2000;
  Random random(5);
  int held = 0;
  for (int run = 0; run < runs; ++run) {
    const double slope = 0.004;
    std::vector<SteelReading> log;
    for (int session = 0; session < 8; ++session) {
      const int day = 25 * session;
      log.push_back(gauge(day, 50 + slope * day / (365.25 / 12) + 0.006 * random.normal()));
    }
    const SteelDrift d = *caliper_state(log).value().series[0].drift;
    held += d.lower <= slope && slope <= d.upper;
  }
  CHECK(std::abs(held - 0.95 * runs) <= margin(0.95, runs) * runs);
}

TEST_CASE("caliper: a gauge that disagrees with the zero is told") {
  const std::vector<SteelReading> good{zero(0, 0.01),   zero(0, 0.01),   zero(0, 0.02),
                                       gauge(0, 50.01), gauge(0, 50.02), gauge(0, 50.01)};
  CHECK_FALSE(says(caliper_state(good).value(), "looks like scale"));
  std::vector<SteelReading> bad = good;
  for (SteelReading& r : bad)
    if (r.kind == Kind::gauge) r.reading_mm += 0.04;
  CHECK(says(caliper_state(bad).value(), "Zero taken off, block 50 reads +0.04 mm on 50 mm"));
}

TEST_CASE("caliper: with little read, what is assumed is said") {
  const CaliperState one = caliper_state({zero(0, 0.0)}).value();
  CHECK(one.repeatability_assumed);
  CHECK(one.repeatability_mm == prior::reading_sd_mm);
  CHECK(one.budget[2].u_mm == Approx(prior::reading_sd_mm));
  CHECK(one.budget[1].source.find("common practice, no source") != std::string::npos);
  const CaliperState unread = caliper_state({gauge(0, 50.0), gauge(0, 50.01)}).value();
  CHECK_FALSE(unread.latest_zero);
  CHECK(unread.budget[2].u_mm == prior::caliper_zero_mm.sd);
  CHECK(says(unread, "The zero was never read"));
  // Readings that agree to the last digit keep the rounding of the display.
  const CaliperState same = caliper_state({zero(0, 0.0), zero(0, 0.0), zero(0, 0.0)}).value();
  CHECK(same.repeatability_mm == Approx(0.01 / std::sqrt(12.0)));
}

TEST_CASE("caliper: what is wrong is said, all of it") {
  CHECK(caliper_state({}).problems()[0].code == Code::unanswerable);
  SteelReading peg = zero(0, 3);
  peg.kind = Kind::peg;
  SteelReading other = gauge(1, 50);
  other.true_mm = 51;
  const Problems told = caliper_state({peg, zero(0, std::nan("")), gauge(0, 50), other}).problems();
  REQUIRE(told.size() == 3);
  CHECK(told[0].what.find("only closed jaws") != std::string::npos);
  CHECK(told[1].what.find("must be numbers") != std::string::npos);
  CHECK(told[2].what.find("50 mm elsewhere and 51 mm here") != std::string::npos);
}

TEST_CASE("capability: the named rule") {
  // JCGM 106:2012, C_m = T/(4 u) with U = 2 u: T = 0.2, U = 0.025 is exactly 4 to 1.
  CHECK(measuring_capability(0.025, 0.1).index == Approx(4));
  CHECK(measuring_capability(0.025, 0.1).answer == Capability::can);
  CHECK(measuring_capability(0.0251, 0.1).answer == Capability::just);
  CHECK(measuring_capability(0.0999, 0.1).answer == Capability::just);
  CHECK(measuring_capability(0.1, 0.1).answer == Capability::cannot);
  const CapabilityAnswer just = measuring_capability(0.03, 0.1);
  CHECK(just.accept_within_mm == Approx(0.07));
  CHECK(just.reject_beyond_mm == Approx(0.13));
  CHECK(measuring_capability(0.02, 0.1).accept_within_mm == 0.1);
  CHECK(measuring_capability(0.2, 0.1).accept_within_mm == 0);
}

TEST_CASE("capability: guarded acceptance passes few bad parts") {
  // A part just out of tolerance is accepted when its reading falls U inside: 2.5 % at most (JCGM 106:2012, 8.3.2), the
  // tail of U = 1.96 u.
  constexpr int runs = 20000;
  Random random(106);
  const double u = 0.015, expanded = 1.96 * u, tolerance = 0.1;
  const CapabilityAnswer a = measuring_capability(expanded, tolerance);
  REQUIRE(a.answer == Capability::just);
  int passed = 0;
  for (int run = 0; run < runs; ++run) passed += std::abs(tolerance + u * random.normal()) <= a.accept_within_mm;
  CHECK(std::abs(passed - 0.025 * runs) <= margin(0.025, runs) * runs);
}

TEST_CASE("caliper: the verdict in words") {
  CaliperState s =
      caliper_state({zero(0, 0.0), zero(0, 0.01), zero(7, 0.0), zero(7, 0.0), zero(14, 0.01), zero(14, 0.01)}).value();
  s.expanded_mm = 0.03;
  CHECK(
      judge(s, 0.1).sentence ==
      "This caliper (± 0.03 mm) can just judge ± 0.10 mm: a reading within ± 0.07 mm of the middle is good, one beyond "
      "± 0.13 mm is not, and between them it cannot say.");
  CHECK(judge(s, 0.2).sentence == "This caliper (± 0.03 mm) can judge ± 0.20 mm.");
  CHECK(judge(s, 0.02).sentence ==
        "This caliper (± 0.03 mm) cannot judge ± 0.02 mm: no reading would prove a part good.");
  const CaliperVerdict v = judge(s, 0.1);
  CHECK(v.because.find("JCGM 106:2012") != std::string::npos);
  CHECK(v.because.find("repeatability") != std::string::npos);
  CHECK(v.because.find("C_m = 3.3") != std::string::npos);
  CHECK_THROWS_AS(judge(s, 0), std::invalid_argument);
}

TEST_CASE("caliper: its control chart") {
  std::vector<SteelReading> log;
  for (int week = 0; week < 5; ++week) log.push_back(zero(7 * week, week % 2 ? 0.01 : 0.0));
  for (int week = 5; week < 9; ++week) log.push_back(zero(7 * week, 0.03));
  const CaliperState s = caliper_state(log).value();
  const Chart c = steel_chart(s.series[0]).value();
  REQUIRE(c.first_signal);
  CHECK(c.sentence.find("the caliper's zero is ") != std::string::npos);
  CHECK(c.sentence.find("Wipe the jaws") != std::string::npos);
  CHECK(steel_chart({Kind::gauge, "block 50", 50, {{0, 1, 0.0}}, {}}).problems()[0].code == Code::unanswerable);
}
