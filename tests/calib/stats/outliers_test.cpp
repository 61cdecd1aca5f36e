#include "stats/outliers.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>

#include "reference/stats/lre.hpp"

using namespace fitwright;

TEST_CASE("Grubbs' critical values") {
  const auto table = reference::read_table("grubbs_critical_values.csv");
  const auto n = table.numbers("n");
  const auto alpha = table.numbers("alpha");
  const auto one = table.numbers("one_sided");
  const auto two = table.numbers("two_sided");
  for (std::size_t i = 0; i < n.size(); ++i) {
    INFO("n " << n[i] << " alpha " << alpha[i]);
    CHECK(grubbs_critical_value(static_cast<int>(n[i]), alpha[i], false) == Approx(one[i]).epsilon(1e-11));
    CHECK(grubbs_critical_value(static_cast<int>(n[i]), alpha[i], true) == Approx(two[i]).epsilon(1e-11));
  }
  // As printed in the NIST/SEMATECH e-Handbook, 1.3.5.17.1, for eight mass-spectrometer readings.
  CHECK(std::round(1000 * grubbs_critical_value(8, 0.05, false)) == 2032);
  CHECK_THROWS_AS(grubbs_critical_value(2, 0.05, true), std::domain_error);
}

TEST_CASE("eight uranium readings: the largest is an outlier (Tietjen and Moore 1972)") {
  const std::vector<double> y = {199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57};
  const Esd esd = generalised_esd(y, 1, 0.05);
  REQUIRE(esd.steps.size() == 1);
  CHECK(esd.outliers == 1);
  CHECK(esd.steps[0].index == 7);
  CHECK(esd.steps[0].statistic == Approx(2.46876461121245).epsilon(1e-12));  // the handbook cuts it off at 2.4687
  CHECK(esd.steps[0].critical == Approx(2.12664508719547).epsilon(1e-12));
}

TEST_CASE("Rosner's 54 values: three outliers, every printed R and lambda") {
  const auto y = reference::read_table("rosner.csv").numbers("y");
  const auto published = reference::read_table("rosner_published.csv");
  const auto removed = published.numbers("removed");
  const auto r = published.numbers("R");
  const auto lambda = published.numbers("lambda");
  const Esd esd = generalised_esd(y, 10, 0.05);
  REQUIRE(esd.steps.size() == 10);
  CHECK(esd.outliers == 3);
  for (std::size_t i = 0; i < 10; ++i) {
    CHECK(y[esd.steps[i].index] == removed[i]);
    CHECK(std::round(1e6 * esd.steps[i].statistic) == std::round(1e6 * r[i]));
    CHECK(std::round(1e6 * esd.steps[i].critical) == std::round(1e6 * lambda[i]));
  }
}

TEST_CASE("too few values or no scatter: no outliers") {
  CHECK(generalised_esd(std::vector<double>{1, 2}, 3, 0.05).steps.empty());
  CHECK(generalised_esd(std::vector<double>{2, 2, 2, 2}, 3, 0.05).outliers == 0);
  CHECK_THROWS_AS(generalised_esd(std::vector<double>{1, 2, 3}, 1, 0), std::domain_error);
}
