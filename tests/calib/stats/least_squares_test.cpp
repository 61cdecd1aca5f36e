// Fits with known answers, influence diagnostics, and what must hold whatever the numbers.

#include "stats/least_squares.hpp"

#include <catch2/catch.hpp>
#include <chrono>
#include <cmath>
#include <iostream>
#include <random>

#include "reference/stats/lre.hpp"
#include "stats/aicc.hpp"
#include "stats/intervals.hpp"

using namespace fitwright;

namespace {

constexpr double given = 1e-7;  // check values are given to eight significant digits

Eigen::VectorXd vec(std::initializer_list<double> values) {
  Eigen::VectorXd v(static_cast<Eigen::Index>(values.size()));
  std::copy(values.begin(), values.end(), v.data());
  return v;
}

/// Rows [L, +2 outer or -2 inner, 1] and deviations r - L of a ladder of blocks and slots.
struct Ladder {
  Eigen::MatrixXd design{7, 3};
  Eigen::VectorXd deviation{7};
  explicit Ladder(double slot_20 = 19.77) {
    const Eigen::VectorXd nominal = vec({10, 20, 40, 80, 10, 20, 40});
    const Eigen::VectorXd reading = vec({10.15, 20.1, 40.05, 79.87, 9.82, slot_20, 39.71});
    design.col(0) = nominal;
    design.col(1) = vec({2, 2, 2, 2, -2, -2, -2});
    design.col(2).setOnes();
    deviation = reading - nominal;
  }
};

Eigen::MatrixXd design_of(const reference::Table& data) {
  Eigen::MatrixXd x(static_cast<Eigen::Index>(data.rows.size()), static_cast<Eigen::Index>(data.columns.size()));
  x.col(0).setOnes();
  Eigen::Index at = 1;
  for (const std::string& name : data.columns) {
    if (name == "y" || name == "stack.loss") continue;
    const auto values = data.numbers(name);
    x.col(at++) = Eigen::Map<const Eigen::VectorXd>(values.data(), x.rows());
  }
  return x;
}

void check_column(const Eigen::VectorXd& computed, const reference::Table& exact, const char* name, double digits) {
  const auto expected = exact.column(name);
  for (std::size_t i = 0; i < expected.size(); ++i) {
    INFO(name << " row " << i + 1);
    CHECK(reference::lre(computed(static_cast<Eigen::Index>(i)), std::stod(expected[i]), 15) >= digits);
  }
}

struct Random {
  std::mt19937_64 bits{20261125};
  double next() { return static_cast<double>(bits() >> 11) * 0x1p-53 - 0.5; }
  Eigen::MatrixXd matrix(Eigen::Index n, Eigen::Index p) {
    return Eigen::MatrixXd::NullaryExpr(n, p, [this] { return next(); });
  }
};

}  // namespace

TEST_CASE("blocks of four lengths read with a caliper whose zero is known") {
  Eigen::MatrixXd design(4, 2);
  design << 10, 2, 20, 2, 40, 2, 80, 2;
  const auto fit = least_squares(design, vec({0.13, 0.08, 0.03, -0.15}));
  REQUIRE(fit.ok());
  CHECK(fit->coefficients(0) == Approx(-0.0039217391).epsilon(given));
  CHECK(fit->coefficients(1) == Approx(0.084782609).epsilon(given));
  CHECK(fit->standard_errors(0) == Approx(0.00028203956).epsilon(given));
  CHECK(fit->standard_errors(1) == Approx(0.0065006907).epsilon(given));
  CHECK(fit->residual_sd == Approx(0.015122687).epsilon(given));
  CHECK(fit->df == 2);
  const double half = coverage_factor(0.95, fit->df) * fit->standard_errors(0);
  CHECK(coverage_factor(0.95, 2) == Approx(4.3026527).epsilon(given));
  CHECK(fit->coefficients(0) - half == Approx(-0.0051352574).epsilon(given));
  CHECK(fit->coefficients(0) + half == Approx(-0.0027082208).epsilon(given));
}

TEST_CASE("blocks and slots, caliper zero free") {
  const Ladder ladder;
  const auto fit = least_squares(ladder.design, ladder.deviation);
  REQUIRE(fit.ok());
  const Eigen::VectorXd b = vec({-0.003872818, 0.082674564, 0.022381546});
  const Eigen::VectorXd se = vec({0.00021553407, 0.0024984759, 0.0081004689});
  const Eigen::VectorXd leverage =
      vec({0.47630923, 0.34164589, 0.25187032, 0.79052369, 0.38653367, 0.33665835, 0.41645885});
  CHECK(fit->coefficients.isApprox(b, given));
  CHECK(fit->standard_errors.isApprox(se, given));
  CHECK(fit->leverage.isApprox(leverage, given));
  CHECK(fit->df == 4);
  CHECK(fit->residual_sd == Approx(0.01245941).epsilon(given));
}

TEST_CASE("a slot misread by 0.14 mm stands out after deletion, corrected for the seven looked at") {
  const Ladder ladder(19.91);
  const auto fit = least_squares(ladder.design, ladder.deviation);
  REQUIRE(fit.ok());
  const Eigen::VectorXd t =
      vec({-0.065096663, -0.26251676, 0.34210709, -0.071336615, -1.2067156, 8.0621783, -0.88815244});
  for (Eigen::Index i = 0; i < 7; ++i) {
    CHECK(fit->externally_studentised(i) == Approx(t(i)).epsilon(1e-6));
    const double p = bonferroni(t_two_sided_p(fit->externally_studentised(i), fit->df - 1), 7);
    if (i == 5)
      CHECK(p == Approx(0.027903979).epsilon(given));
    else
      CHECK(p == 1);
  }
}

TEST_CASE("hole laws on ten means: constant, constant + 1/d, and a scale") {
  const Eigen::VectorXd d = vec({2, 3, 4, 5, 6, 8, 10, 12, 16, 20});
  const Eigen::VectorXd closing = vec({.163, .121, .125, .102, .098, .108, .079, .097, .083, .091});
  const Eigen::VectorXd one = Eigen::VectorXd::Ones(10);
  Eigen::MatrixXd inverse(10, 2), scale(10, 2);
  inverse << one, d.cwiseInverse();
  scale << one, -d;
  const auto constant_fit = least_squares(Eigen::MatrixXd(one), closing);
  const auto inverse_fit = least_squares(inverse, closing);
  const auto scale_fit = least_squares(scale, closing);
  REQUIRE((constant_fit.ok() && inverse_fit.ok() && scale_fit.ok()));
  CHECK(constant_fit->coefficients(0) == Approx(0.1067).epsilon(1e-12));
  CHECK(inverse_fit->coefficients.isApprox(vec({0.076184216, 0.16311332}), given));
  CHECK(scale_fit->coefficients.isApprox(vec({0.13195293, 0.0029363868}), given));
  CHECK(constant_fit->residual_sum_of_squares == Approx(0.0054781).epsilon(1e-12));
  CHECK(inverse_fit->residual_sum_of_squares == Approx(0.000679374).epsilon(1e-6));
  CHECK(scale_fit->residual_sum_of_squares == Approx(0.0027672277).epsilon(given));

  const std::vector<double> criteria = {aicc(constant_fit->residual_sum_of_squares, 10, 1),
                                        aicc(inverse_fit->residual_sum_of_squares, 10, 2),
                                        aicc(scale_fit->residual_sum_of_squares, 10, 2)};
  CHECK(criteria[0] == Approx(-69.381535).epsilon(given));
  CHECK(criteria[1] == Approx(-85.969239).epsilon(given));
  CHECK(criteria[2] == Approx(-71.924944).epsilon(given));
  const auto weights = akaike_weights(criteria);
  CHECK(weights[0] == Approx(0.00024976422).epsilon(1e-6));
  CHECK(weights[1] == Approx(0.99885935).epsilon(given));
  CHECK(weights[2] == Approx(0.00089089076).epsilon(1e-6));
  for (const auto& [at, expected] : {std::pair{3.3, -0.12560479}, {22.0, -0.083589754}}) {
    const double averaged = weights[0] * constant_fit->coefficients(0) +
                            weights[1] * (inverse_fit->coefficients(0) + inverse_fit->coefficients(1) / at) +
                            weights[2] * (scale_fit->coefficients(0) - scale_fit->coefficients(1) * at);
    CHECK(-averaged == Approx(expected).epsilon(given));
  }
  const double f = (constant_fit->residual_sum_of_squares - inverse_fit->residual_sum_of_squares) /
                   (inverse_fit->residual_sum_of_squares / inverse_fit->df);
  CHECK(f == Approx(56.50762).epsilon(given));
  CHECK(f_upper_p(f, 1, 8) == Approx(6.8162219e-05).epsilon(given));
  const Eigen::VectorXd row = vec({1, 1 / 3.3});
  const double spread = inverse_fit->residual_sd * std::sqrt(1 + row.dot(inverse_fit->unscaled_covariance * row));
  CHECK(coverage_factor(0.95, 8) * spread == Approx(0.023030475).epsilon(given));
}

TEST_CASE("GUM H.3, calibration of a thermometer, to every printed digit", "[gum]") {
  const auto data = reference::read_table("gum_h3.csv");
  const auto t = data.numbers("t_k_degC");
  const auto correction = data.numbers("b_k_degC");
  const auto n = static_cast<Eigen::Index>(t.size());
  Eigen::MatrixXd design(n, 2);
  design.col(0).setOnes();
  design.col(1) = Eigen::Map<const Eigen::VectorXd>(t.data(), n).array() - 20.0;
  const auto fit = least_squares(design, Eigen::VectorXd(Eigen::Map<const Eigen::VectorXd>(correction.data(), n)));
  REQUIRE(fit.ok());
  const auto printed = [](double computed, double value, int decimals) {
    return std::round(computed * std::pow(10, decimals)) == std::round(value * std::pow(10, decimals));
  };
  const Eigen::MatrixXd covariance = fit->residual_sd * fit->residual_sd * fit->unscaled_covariance;
  CHECK(fit->df == 9);
  CHECK(printed(fit->coefficients(0), -0.1712, 4));
  CHECK(printed(fit->standard_errors(0), 0.0029, 4));
  CHECK(printed(fit->coefficients(1), 0.00218, 5));
  CHECK(printed(fit->standard_errors(1), 0.00067, 5));
  CHECK(printed(covariance(0, 1) / (fit->standard_errors(0) * fit->standard_errors(1)), -0.930, 3));
  CHECK(printed(fit->residual_sd, 0.0035, 4));
  const Eigen::VectorXd at_30 = vec({1, 10});
  CHECK(printed(at_30.dot(fit->coefficients), -0.1494, 4));
  CHECK(printed(std::sqrt(at_30.dot(covariance * at_30)), 0.0041, 4));
}

TEST_CASE("influence diagnostics of the stack loss and Longley fits equal the exact ones") {
  // Exact to 16 digits. Longley's columns have a condition of 4e4 after scaling, its intercept 1e7: ten digits.
  for (const auto& [set, response, digits] : {std::tuple{"stackloss", "stack.loss", 12.0}, {"Longley", "y", 10.0}}) {
    INFO(set);
    const auto data = reference::read_table(std::string(set) + ".csv");
    const auto exact =
        reference::read_table(std::string(set == std::string("Longley") ? "longley" : set) + "_diagnostics.csv");
    const auto y = data.numbers(response);
    const auto fit = least_squares(design_of(data), Eigen::VectorXd(Eigen::Map<const Eigen::VectorXd>(
                                                        y.data(), static_cast<Eigen::Index>(y.size()))));
    REQUIRE(fit.ok());
    check_column(fit->residuals, exact, "residual", digits);
    check_column(fit->leverage, exact, "leverage", digits);
    check_column(fit->internally_studentised, exact, "internally_studentised", digits);
    check_column(fit->externally_studentised, exact, "externally_studentised", digits);
    check_column(fit->cooks_distance, exact, "cooks_distance", digits);
    check_column(fit->dffits, exact, "dffits", digits);
  }
}

TEST_CASE("deletion diagnostics equal those of fits without the row") {
  Random random;
  const Eigen::MatrixXd x = random.matrix(12, 3);
  const Eigen::VectorXd y = random.matrix(12, 1);
  const auto fit = least_squares(x, y);
  REQUIRE(fit.ok());
  for (Eigen::Index i = 0; i < 12; ++i) {
    std::vector<Eigen::Index> others;
    for (Eigen::Index k = 0; k < 12; ++k)
      if (k != i) others.push_back(k);
    const auto without = least_squares(Eigen::MatrixXd(x(others, Eigen::all)), Eigen::VectorXd(y(others)));
    REQUIRE(without.ok());
    const double miss = y(i) - x.row(i).dot(without->coefficients);
    const double spread =
        without->residual_sd * std::sqrt(1 + x.row(i).dot(without->unscaled_covariance * x.row(i).transpose()));
    CHECK(fit->externally_studentised(i) == Approx(miss / spread).epsilon(1e-11));
    const Eigen::VectorXd moved = x * (fit->coefficients - without->coefficients);
    CHECK(fit->cooks_distance(i) ==
          Approx(moved.squaredNorm() / (3 * fit->residual_sd * fit->residual_sd)).epsilon(1e-11));
    CHECK(fit->dffits(i) == Approx(moved(i) / (without->residual_sd * std::sqrt(fit->leverage(i)))).epsilon(1e-11));
  }
}

TEST_CASE("a fit follows shifts, scales, order and weights as it must") {
  Random random;
  Eigen::MatrixXd x = random.matrix(15, 4);
  x.col(0).setOnes();
  const Eigen::VectorXd y = random.matrix(15, 1);
  const auto fit = least_squares(x, y);
  REQUIRE(fit.ok());

  SECTION("adding X c to the readings adds c to the coefficients and nothing to the residuals") {
    const Eigen::VectorXd c = vec({1, -2, 3, 0.5});
    const auto moved = least_squares(x, Eigen::VectorXd(y + x * c));
    REQUIRE(moved.ok());
    CHECK(moved->coefficients.isApprox(fit->coefficients + c, 1e-13));
    CHECK(moved->residuals.isApprox(fit->residuals, 1e-13));
  }
  SECTION("scaling the readings scales coefficients and scatter, not the diagnostics") {
    const auto scaled = least_squares(x, Eigen::VectorXd(y * 25.4));
    REQUIRE(scaled.ok());
    CHECK(scaled->coefficients.isApprox(fit->coefficients * 25.4, 1e-13));
    CHECK(scaled->residual_sd == Approx(fit->residual_sd * 25.4).epsilon(1e-13));
    CHECK(scaled->externally_studentised.isApprox(fit->externally_studentised, 1e-12));
  }
  SECTION("scaling a column divides its coefficient") {
    Eigen::MatrixXd wide = x;
    wide.col(2) *= 1e6;
    const auto scaled = least_squares(wide, y);
    REQUIRE(scaled.ok());
    CHECK(scaled->coefficients(2) == Approx(fit->coefficients(2) / 1e6).epsilon(1e-12));
    CHECK(scaled->leverage.isApprox(fit->leverage, 1e-13));
  }
  SECTION("the order of the rows does not matter") {
    const Eigen::MatrixXd backwards = x.colwise().reverse();
    const auto turned = least_squares(backwards, Eigen::VectorXd(y.reverse()));
    REQUIRE(turned.ok());
    CHECK(turned->coefficients.isApprox(fit->coefficients, 1e-13));
    CHECK(turned->leverage.reverse().isApprox(fit->leverage, 1e-13));
  }
  SECTION("leverages sum to the rank, residuals are at right angles to the columns") {
    CHECK(fit->leverage.sum() == Approx(4).epsilon(1e-14));
    CHECK((x.transpose() * fit->residuals).norm() < 1e-13);
  }
  SECTION("a weight of 3 is three equal rows, as far as the coefficients go") {
    LeastSquaresOptions options;
    options.weights = Eigen::VectorXd::Ones(15);
    options.weights(4) = 3;
    const auto weighted = least_squares(x, y, options);
    Eigen::MatrixXd repeated(17, 4);
    repeated << x, x.row(4), x.row(4);
    Eigen::VectorXd readings(17);
    readings << y, y(4), y(4);
    const auto thrice = least_squares(repeated, readings);
    REQUIRE((weighted.ok() && thrice.ok()));
    CHECK(weighted->coefficients.isApprox(thrice->coefficients, 1e-13));
    CHECK(weighted->unscaled_covariance.isApprox(thrice->unscaled_covariance, 1e-13));
    CHECK(weighted->leverage(4) == Approx(3 * thrice->leverage(4)).epsilon(1e-13));
    CHECK(weighted->residual_sum_of_squares == Approx(thrice->residual_sum_of_squares).epsilon(1e-13));
    CHECK(weighted->r_squared == Approx(thrice->r_squared).epsilon(1e-13));
  }
}

TEST_CASE("what cannot be fitted is said, not computed") {
  Eigen::MatrixXd design(4, 3);
  design << 10, 2, 1, 20, 2, 1, 40, 2, 1, 80, 2, 1;  // outers alone: edge growth and zero are one column
  const auto sums = least_squares(design, vec({0.13, 0.08, 0.03, -0.15}));
  REQUIRE_FALSE(sums.ok());
  CHECK(sums.problems().size() == 1);
  CHECK(sums.problems()[0].code == Code::unanswerable);
  CHECK(sums.problems()[0].what.find("2 of 3") != std::string::npos);

  const auto few = least_squares(Eigen::MatrixXd(design.topRows(1)), vec({0.1}));
  REQUIRE_FALSE(few.ok());
  CHECK(few.problems()[0].code == Code::unanswerable);

  LeastSquaresOptions options;
  options.weights = vec({1, 0, 1, -2});
  Eigen::VectorXd bad = vec({0.13, 0.08, std::nan(""), -0.15});
  const auto wrong = least_squares(Eigen::MatrixXd(design.leftCols(2)), bad, options);
  REQUIRE_FALSE(wrong.ok());
  CHECK(wrong.problems().size() == 3);  // two weights and one reading, all told at once
  CHECK(wrong.problems()[0].what.find("row 2") == 0);

  CHECK_THROWS_AS(least_squares(design, vec({1, 2})), std::invalid_argument);
}

TEST_CASE("a fit without a degree of freedom has coefficients and no scatter") {
  Eigen::MatrixXd design(2, 2);
  design << 10, 2, 80, 2;
  const auto fit = least_squares(design, vec({0.1, -0.1}));
  REQUIRE(fit.ok());
  CHECK(fit->df == 0);
  CHECK(fit->coefficients(0) == Approx(-0.2 / 70).epsilon(1e-13));
  CHECK(std::isnan(fit->residual_sd));
  CHECK(std::isnan(fit->externally_studentised(0)));
  CHECK(fit->leverage(0) == Approx(1));
}

TEST_CASE("a row that fits itself has no studentised residual, the others keep theirs") {
  Eigen::MatrixXd design(4, 2);
  design << 1, 0, 1, 0, 1, 0, 1, 1;  // the last row alone carries the second column
  const auto fit = least_squares(design, vec({1, 2, 4, 9}));
  REQUIRE(fit.ok());
  CHECK(std::isnan(fit->externally_studentised(3)));
  CHECK(std::isfinite(fit->externally_studentised(0)));
}

TEST_CASE("time of a fit of 100000 readings and 20 unknowns", "[.time]") {
  Random random;
  const Eigen::MatrixXd x = random.matrix(100000, 20);
  const Eigen::VectorXd y = random.matrix(100000, 1);
  const auto begin = std::chrono::steady_clock::now();
  const auto fit = least_squares(x, y);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  REQUIRE(fit.ok());
  std::cout << 1000 * took.count() << " ms\n";
}
