// Tolerance factors, achieved grades, press fits, latches, the value of one more print.

#include <catch2/catch.hpp>

#include "calib/fits/tables.hpp"
#include "fits/achieved_grade.hpp"
#include "fits/iso286.hpp"
#include "fits/next_print.hpp"
#include "fits/press.hpp"
#include "fits/tolerance_interval.hpp"
#include "model/estimate.hpp"
#include "practice/simulate.hpp"

TEST_CASE("exact factors of two-sided tolerance intervals") {
  const auto table = fitwright::reference::read_table("tolerance_factors.csv");
  REQUIRE(table.rows.size() == 441);
  for (const auto& row : table.rows) {
    const double n = std::stod(row[0]);
    const double k = fitwright::tolerance_factor(n, n - 1, std::stod(row[1]), std::stod(row[2]));
    INFO(row[0] << ' ' << row[1] << ' ' << row[2]);
    CHECK(k == Approx(std::stod(row[3])).epsilon(1e-9));  // the table has ten digits
  }
  // NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3: n = 43, 90 %, 99 % (exact value; the page's listing has
  // its arguments swapped).
  CHECK(fitwright::tolerance_factor(43, 42, 0.9, 0.99) == Approx(2.222825173791123).epsilon(1e-10));
}

TEST_CASE("press fits by the thick-cylinder equations") {
  for (const auto& row : engineering_table("press_fits.csv").rows) {
    std::vector<double> v;
    for (const std::string& cell : row) v.push_back(std::stod(cell));
    const auto s = fitwright::press_stress({v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7]});
    CHECK(s.pressure_mpa == Approx(v[8]).epsilon(1e-5));  // six digits are listed
    CHECK(s.ring_hoop_mpa == Approx(v[9]).epsilon(1e-5));
    CHECK(s.ring_hoop_outside_mpa == Approx(v[10]).epsilon(1e-5));
    CHECK(s.shaft_hoop_mpa == Approx(v[11]).epsilon(1e-5));
    CHECK(s.outside_growth_mm * 1000 == Approx(v[12]).epsilon(1e-3));
  }
  CHECK(fitwright::press_stress({2000, 0.35, 2e5, 0.3, 0, 4, 8, -0.1}).pressure_mpa == 0);
  CHECK_THROWS(fitwright::press_stress({2000, 0.35, 2e5, 0.3, 0, 8, 4, 0.1}));
  CHECK(fitwright::press_words({10, 60, 0, 0, 0}, 50, true)[2].find("crack") != std::string::npos);
}

TEST_CASE("strain of a latch, and what brings it down") {
  const fitwright::Latch latch{2, 1, 10};
  CHECK(fitwright::latch_strain(latch) == Approx(0.03));
  const auto words = fitwright::latch_words(latch, 0.0075, false);
  CHECK(words[1] == "Make it 20.0 mm long, or 0.50 mm thin, or take 0.25 mm of undercut: one of them is enough.");
  CHECK(fitwright::latch_strain({2, 1, 20}) == Approx(0.0075));
  CHECK(fitwright::latch_words(latch, 0.04, false).size() == 2);
}

TEST_CASE("the value of one more print") {
  Eigen::VectorXd a(3);
  a << 0.2, -4, -1;
  Eigen::MatrixXd s = Eigen::Vector3d(3.6e-07, 0.00013225, 0.0025).asDiagonal();
  Eigen::MatrixXd x(1, 3);
  x << 8, -2, -1;
  const Eigen::MatrixXd v = Eigen::MatrixXd::Constant(1, 1, 0.001375);
  const double now = a.dot(s * a), after = fitwright::variance_after(s, a, x, v);
  CHECK(std::sqrt(now) == Approx(0.067941257).epsilon(1e-7));
  CHECK(std::sqrt(after) == Approx(0.041899088).epsilon(1e-7));
  CHECK(fitwright::gain_per_gram(now, after, 0.9) == Approx(0.056714058).epsilon(1e-7));
  // Two rows at once equal one after the other.
  Eigen::MatrixXd two(2, 3);
  two << 8, -2, -1, 20, -2, 0;
  const Eigen::MatrixXd v2 = Eigen::Vector2d(0.001375, 0.002).asDiagonal();
  const Eigen::MatrixXd gain = s * x.transpose() / (v(0, 0) + (x * s * x.transpose())(0, 0));
  const Eigen::MatrixXd s1 = s - gain * x * s;
  Eigen::MatrixXd x2(1, 3);
  x2 << 20, -2, 0;
  CHECK(fitwright::variance_after(s, a, two, v2) ==
        Approx(fitwright::variance_after(s1, a, x2, Eigen::MatrixXd::Constant(1, 1, 0.002))).epsilon(1e-9));
}

TEST_CASE("what to print next: what bears on the clearance wins, and enough is enough") {
  using namespace fitwright;
  const auto e = estimate(simulate(default_truth(), 2)).value();
  AllowanceRequest r;
  r.kind = SizeKind::hole;
  r.nominal_mm = 8;
  const auto one = [](const char* name, Kind kind, double nominal, double grams) {
    Feature f;
    f.id = name;
    f.kind = kind;
    f.axis = kind == Kind::outer ? Axis::x : Axis::z;
    f.nominal_mm = nominal;
    return PrintCandidate{name, grams, {f}};
  };
  const std::vector<PrintCandidate> candidates{one("hole 8", Kind::hole, 8, 0.9), one("hole 3", Kind::hole, 3, 0.9),
                                               one("outer 150", Kind::outer, 150, 8), one("peg 8", Kind::peg, 8, 0.6)};
  const auto next = next_print(e, r, candidates);
  REQUIRE(next.ok());
  REQUIRE(next->gains.size() == 4);
  CHECK(next->gains.front().name == "hole 8");
  for (const auto& g : next->gains) CHECK(g.sd_after_mm <= next->sd_now_mm);
  CHECK(next->new_part_sd_mm > 0);
  CHECK(next->stop == (next->sd_now_mm < next->new_part_sd_mm / 3));
  Estimates sure = e;
  sure.covariance *= 1e-4;
  CHECK(next_print(sure, r, candidates)->stop);
  CHECK(next_print(sure, r, candidates)->text.find("Stop") == 0);
  const auto nothing_known = next_print(Estimates{}, r, candidates);
  REQUIRE(nothing_known.ok());
  CHECK(nothing_known->half_width_now_mm > 0.3);
}

TEST_CASE("achieved grades follow the scatter, and few places say nothing") {
  using namespace fitwright;
  const auto readings = simulate(default_truth(), 5);
  const auto grades = achieved_grades(estimate(readings).value());
  REQUIRE_FALSE(grades.empty());
  bool any = false;
  for (const auto& a : grades) {
    INFO(a.text);
    if (a.df < least_grade_df) {
      CHECK_FALSE(a.grade);
      CHECK(a.text.find("too few places") != std::string::npos);
      continue;
    }
    any = true;
    REQUIRE(a.grade);
    CHECK(*a.grade >= 9);
    CHECK(*a.grade <= 16);
    CHECK(a.plus_minus_mm == Approx(a.factor * a.sd_mm));
  }
  CHECK(any);
}
