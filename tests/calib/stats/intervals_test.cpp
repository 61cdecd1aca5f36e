#include "stats/intervals.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <vector>

using namespace fitwright;

namespace {
constexpr double infinity = std::numeric_limits<double>::infinity();
}

TEST_CASE("t quantiles are those of JCGM 100:2008, table G.2") {
  // Printed to two decimals: t for 95 % and 99 %.
  struct Row {
    double df, t95, t99;
  };
  for (const Row& row : {Row{1, 12.71, 63.66}, Row{2, 4.30, 9.92}, Row{3, 3.18, 5.84}, Row{4, 2.78, 4.60},
                         Row{5, 2.57, 4.03}, Row{10, 2.23, 3.17}, Row{16, 2.12, 2.92}, Row{20, 2.09, 2.85},
                         Row{50, 2.01, 2.68}, Row{100, 1.984, 2.626}, Row{infinity, 1.960, 2.576}}) {
    const double half_step = row.df < 100 ? 0.005 : 0.0005;
    CHECK(std::fabs(coverage_factor(0.95, row.df) - row.t95) <= half_step * (1 + 1e-9));
    CHECK(std::fabs(coverage_factor(0.99, row.df) - row.t99) <= half_step * (1 + 1e-9));
  }
}

TEST_CASE("t in closed form for one and two degrees of freedom") {
  const double pi = std::acos(-1.0);
  for (const double p : {0.01, 0.3, 0.6, 0.975, 0.99}) {
    CHECK(t_quantile(p, 1) == Approx(std::tan(pi * (p - 0.5))).epsilon(1e-13));
    CHECK(t_quantile(p, 2) == Approx((2 * p - 1) / std::sqrt(2 * p * (1 - p))).epsilon(1e-13));
  }
  CHECK(t_two_sided_p(1, 1) == Approx(0.5).epsilon(1e-14));
  CHECK(t_two_sided_p(-1, 1) == t_two_sided_p(1, 1));
  CHECK(t_two_sided_p(0, 7.3) == Approx(1).epsilon(1e-15));
  CHECK(t_two_sided_p(infinity, 3) == 0);
}

TEST_CASE("quantile and chance are inverse, also for degrees of freedom that are not whole") {
  for (const double df : {0.7, 1.7101, 4.54, 16.74, 300.5, infinity})
    for (const double p : {0.8, 0.975, 0.9995})
      CHECK(t_two_sided_p(t_quantile(p, df), df) == Approx(2 * (1 - p)).epsilon(1e-10));
  CHECK(normal_chance(normal_quantile(0.975)) == Approx(0.975).epsilon(1e-15));
  CHECK(normal_quantile(0.975) == Approx(1.959963984540054).epsilon(1e-14));
  CHECK(chi_squared_quantile(0.95, 2) == Approx(-2 * std::log(0.05)).epsilon(1e-13));
  CHECK(chi_squared_upper_p(7, 2) == Approx(std::exp(-3.5)).epsilon(1e-13));
  CHECK(chi_squared_upper_p(chi_squared_quantile(0.9, 5.5), 5.5) == Approx(0.1).epsilon(1e-12));
  CHECK(chi_squared_upper_p(0, 3) == 1);
}

TEST_CASE("F with one numerator degree of freedom is t squared, and has a closed form for two") {
  CHECK(f_upper_p(2.5 * 2.5, 1, 6) == Approx(t_two_sided_p(2.5, 6)).epsilon(1e-12));
  CHECK(f_upper_p(3, 2, 10) == Approx(std::pow(1 + 3.0 * 2 / 10, -5)).epsilon(1e-12));
  CHECK(f_upper_p(-1, 2, 10) == 1);
  CHECK(f_upper_p(infinity, 2, 10) == 0);
}

TEST_CASE("effective degrees of freedom of the end gauge of JCGM 100:2008, H.1") {
  // nm, unrounded inputs: standard 25 (18), difference from u = 13/sqrt(5), 10/t95(5), 20/3, temperature difference;
  // the figures are printed to the digits checked here.
  const double length = 50000623;
  const std::vector<Contribution> difference = {
      {13 / std::sqrt(5.0), 24}, {10 / coverage_factor(0.95, 5), 5}, {20.0 / 3, 8}};
  CHECK(std::round(combined_uncertainty(difference) * 10) == 97);     // published: 9.7 nm
  CHECK(std::round(welch_satterthwaite_df(difference) * 10) == 256);  // 25.6
  const std::vector<Contribution> all = {{25, 18},
                                         {combined_uncertainty(difference), welch_satterthwaite_df(difference)},
                                         {length * 0.1 * 1e-6 / std::sqrt(3.0), 50},
                                         {length * 11.5e-6 * 0.05 / std::sqrt(3.0), 2}};
  CHECK(std::round(std::pow(combined_uncertainty(all), 2)) == 1002);  // nm^2
  const double df = welch_satterthwaite_df(all);
  CHECK(std::round(df * 10) == 167);  // 16.7, which the guide truncates to 16
  CHECK(std::round(coverage_factor(0.99, std::floor(df)) * 100) == 292);
}

TEST_CASE("effective degrees of freedom at the edges") {
  const std::vector<Contribution> certain = {{0.1, infinity}, {0.2, infinity}};
  CHECK(std::isinf(welch_satterthwaite_df(certain)));
  const std::vector<Contribution> nothing = {{0, 3}};
  CHECK(std::isinf(welch_satterthwaite_df(nothing)));
  const std::vector<Contribution> one = {{0.003, 4}, {0, 1}};
  CHECK(welch_satterthwaite_df(one) == Approx(4).epsilon(1e-14));
  const std::vector<Contribution> tiny = {{3e-90, 4}, {3e-90, 4}};
  CHECK(welch_satterthwaite_df(tiny) == Approx(8).epsilon(1e-14));
  CHECK(bonferroni(0.2, 10) == 1);
  CHECK(bonferroni(0.001, 10) == Approx(0.01));
  CHECK_THROWS_AS(t_quantile(1.0, 3), std::domain_error);
  CHECK_THROWS_AS(t_quantile(0.5, 0), std::domain_error);
  CHECK_THROWS_AS(normal_quantile(std::nan("")), std::domain_error);
}
