// NIST StRD linear regression sets against their certified values, counted in digits (LRE).

#include <catch2/catch.hpp>
#include <iomanip>
#include <iostream>
#include <string>
#include <vector>

#include "reference/stats/lre.hpp"
#include "stats/least_squares.hpp"

using namespace fitwright;

namespace {

struct Case {
  std::string name;
  int degree;  ///< of the polynomial in x; 0: the columns x1..x6 as they stand
  bool intercept;
};

const std::vector<Case> cases = {
    {"Norris", 1, true}, {"Pontius", 2, true}, {"NoInt1", 1, false}, {"Filip", 10, true}, {"Longley", 0, true}};

struct Digits {
  double coefficients = 99, standard_errors = 99, residual_sd = 99, r_squared = 99, residual_ss = 99;
};

std::vector<std::vector<long double>> columns_of(const Case& c, const reference::Table& data) {
  std::vector<std::vector<long double>> columns;
  if (c.intercept) columns.emplace_back(data.rows.size(), 1.0L);
  if (c.degree == 0) {
    for (std::size_t j = 1; j < data.columns.size(); ++j) columns.push_back(data.extended(data.columns[j]));
    return columns;
  }
  const auto x = data.extended("x");
  std::vector<long double> power(x.size(), 1.0L);
  for (int d = 1; d <= c.degree; ++d) {
    for (std::size_t i = 0; i < x.size(); ++i) power[i] *= x[i];
    columns.push_back(power);
  }
  return columns;
}

LeastSquares fit_of(const Case& c, bool rounded_to_double) {
  const auto data = reference::read_table(c.name + ".csv");
  const auto columns = columns_of(c, data);
  const auto y = data.extended("y");
  const auto n = static_cast<Eigen::Index>(y.size());
  ExtendedMatrix design(n, static_cast<Eigen::Index>(columns.size()));
  for (Eigen::Index j = 0; j < design.cols(); ++j)
    design.col(j) = Eigen::Map<const ExtendedVector>(columns[static_cast<std::size_t>(j)].data(), n);
  const ExtendedVector response = Eigen::Map<const ExtendedVector>(y.data(), n);
  const auto fit = rounded_to_double
                       ? least_squares(Eigen::MatrixXd(design.cast<double>()), Eigen::VectorXd(response.cast<double>()))
                       : least_squares(design, response);
  REQUIRE(fit.ok());
  return *fit;
}

Digits digits_of(const Case& c, bool rounded_to_double) {
  const LeastSquares fit = fit_of(c, rounded_to_double);
  const auto certified = reference::read_table(c.name + "_certified.csv");
  Digits d;
  for (Eigen::Index j = 0; j < fit.coefficients.size(); ++j) {
    const std::string k = std::to_string(j);
    d.coefficients = std::min(d.coefficients, reference::lre(fit.coefficients(j), certified.value("estimate_" + k)));
    d.standard_errors =
        std::min(d.standard_errors, reference::lre(fit.standard_errors(j), certified.value("std_dev_" + k)));
  }
  d.residual_sd = reference::lre(fit.residual_sd, certified.value("residual_sd"));
  d.r_squared = reference::lre(fit.r_squared, certified.value("r_squared"));
  d.residual_ss = reference::lre(fit.residual_sum_of_squares, certified.value("residual_ss"));
  CHECK(fit.df == std::stoi(certified.value("residual_df")));
  CHECK(fit.has_constant == c.intercept);
  return d;
}

}  // namespace

TEST_CASE("StRD linear sets agree with the certified values", "[strd]") {
  // Filip's powers up to x^10 are rounded to 64 bits before anything is computed (relative 5e-20), and the scaled
  // columns' condition of several 1e9 acts on that; nine digits are asked of it. The other sets are asked for
  // thirteen of the fifteen printed.
  for (const Case& c : cases) {
    INFO(c.name);
    const double wanted = c.name == "Filip" ? 9 : 13;
    const Digits d = digits_of(c, false);
    CHECK(d.coefficients >= wanted);
    CHECK(d.standard_errors >= wanted);
    CHECK(d.residual_sd >= wanted);
    CHECK(d.r_squared >= wanted);
    CHECK(d.residual_ss >= wanted);
  }
}

TEST_CASE("StRD linear sets given in double keep thirteen digits where double can hold the columns", "[strd]") {
  for (const Case& c : cases) {
    if (c.name == "Filip") continue;  // x^10 in double is already wrong in the 17th digit: 8 digits are left
    INFO(c.name);
    const Digits d = digits_of(c, true);
    CHECK(d.coefficients >= 13);
    CHECK(d.standard_errors >= 13);
    CHECK(d.residual_sd >= 13);
    CHECK(d.r_squared >= 13);
  }
}

TEST_CASE("digits of agreement with the StRD linear sets", "[.table]") {
  std::cout << "| set | columns given in | coefficients | their sd | residual sd | R2 |\n|---|---|---|---|---|---|\n";
  for (const bool rounded : {false, true})
    for (const Case& c : cases) {
      const Digits d = digits_of(c, rounded);
      std::cout << std::fixed << std::setprecision(1) << "| " << c.name << " | " << (rounded ? "double" : "extended")
                << " | " << d.coefficients << " | " << d.standard_errors << " | " << d.residual_sd << " | "
                << d.r_squared << " |\n";
    }
}
