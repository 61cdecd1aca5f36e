// Mixed models with exact or published answers.

#include "stats/reml.hpp"

#include <catch2/catch.hpp>

#include "reml_helpers.hpp"

using namespace fitwright;
using namespace fitwright::reml_test;

TEST_CASE("Dyestuff: one-way balanced REML is the analysis of variance", "[mixed]") {
  const auto data = reference::read_table("dyestuff.csv");
  const VectorXd y = column(data, "Yield");
  const auto fit =
      reml(MatrixXd::Ones(30, 1), y, {grouped_component("batch", levels(data.column("Batch"))), residual(30)});
  REQUIRE(fit.ok());
  CHECK(fit->end == RemlEnd::converged);
  CHECK(fit->variances(0) == Approx(1764.05).epsilon(exact));
  CHECK(fit->variances(1) == Approx(2451.25).epsilon(exact));
  CHECK(fit->coefficients(0) == Approx(1527.5).epsilon(exact));
  CHECK(std::sqrt(fit->covariance(0, 0)) == Approx(19.38341215231897).epsilon(exact));
  CHECK(-2 * fit->log_likelihood + 29 * log_two_pi == Approx(319.6542768422575).epsilon(1e-12));
  // Balanced: the mean has the five degrees of freedom between batches.
  CHECK(satterthwaite_df(*fit, VectorXd::Ones(1)) == Approx(5).epsilon(exact));
  const VectorXd batch = vec({-17.6068513507519, 0.3912633633500421, 28.56222552455308, -23.08453843765249,
                              56.73318768575611, -44.99528678525485});
  CHECK(fit->effects[0].isApprox(batch, 1e-8));
}

TEST_CASE("Dyestuff2: a variance whose estimate would be negative ends at zero", "[mixed]") {
  const auto data = reference::read_table("dyestuff2.csv");
  const auto fit = reml(MatrixXd::Ones(30, 1), column(data, "Yield"),
                        {grouped_component("batch", levels(data.column("Batch"))), residual(30)});
  REQUIRE(fit.ok());
  CHECK(fit->end == RemlEnd::converged);
  CHECK(fit->variances(0) == 0);
  CHECK(fit->at_zero == std::vector<bool>{true, false});
  CHECK(fit->variances(1) == Approx(13.80630962758621).epsilon(exact));
  CHECK(fit->coefficients(0) == Approx(5.6656).epsilon(exact));
  CHECK(fit->variance_covariance(0, 0) == 0);
  CHECK(fit->variance_covariance(1, 1) == Approx(2 * std::pow(13.80630962758621, 2) / 29).epsilon(exact));
  CHECK(satterthwaite_df(*fit, VectorXd::Ones(1)) == Approx(29).epsilon(exact));
}

TEST_CASE("Penicillin: two crossed random effects", "[mixed]") {
  const auto data = reference::read_table("penicillin.csv");
  const auto fit = reml(MatrixXd::Ones(144, 1), column(data, "diameter"),
                        {grouped_component("plate", levels(data.column("plate"))),
                         grouped_component("sample", levels(data.column("sample"))), residual(144)});
  REQUIRE(fit.ok());
  CHECK(fit->end == RemlEnd::converged);
  CHECK(fit->variances(0) == Approx(0.7169082125603865).epsilon(exact));
  CHECK(fit->variances(1) == Approx(3.730917874396135).epsilon(exact));
  CHECK(fit->variances(2) == Approx(0.3024154589371981).epsilon(exact));
  CHECK(fit->coefficients(0) == Approx(22.97222222222222).epsilon(exact));
  CHECK(std::sqrt(fit->covariance(0, 0)) == Approx(0.808573390985487).epsilon(exact));
  CHECK(-2 * fit->log_likelihood + 143 * log_two_pi == Approx(330.8605889910865).epsilon(1e-12));
}

TEST_CASE("features read an unequal number of times: degrees of freedom and Kenward-Roger errors", "[mixed]") {
  const Ladder ladder;
  const auto fit = reml(ladder.design, ladder.y, ladder.components);
  REQUIRE(fit.ok());
  CHECK(fit->end == RemlEnd::converged);
  // The optimum by Newton's method in 50 decimal digits from the features' means and sums of squares.
  CHECK(fit->variances(0) == Approx(0.000751554163081182).epsilon(exact));
  CHECK(fit->variances(1) == Approx(0.000193197913593435).epsilon(exact));
  CHECK(fit->coefficients(0) == Approx(0.0772363138059836).epsilon(exact));
  CHECK(fit->coefficients(1) == Approx(0.00246641544877837).epsilon(exact));
  // Standard errors, Kenward-Roger errors and degrees of freedom as two independent programs give them, each stopped
  // within 2e-7 of the optimum.
  constexpr double given = 1e-6;
  const VectorXd se = fit->covariance.diagonal().cwiseSqrt();
  const VectorXd se_kr = fit->kenward_roger.diagonal().cwiseSqrt();
  CHECK(se(0) == Approx(0.017729563).epsilon(given));
  CHECK(se(1) == Approx(0.0003806043).epsilon(given));
  CHECK(se_kr(0) == Approx(0.017757091).epsilon(given));
  CHECK(se_kr(1) == Approx(0.00038092115).epsilon(given));
  CHECK(satterthwaite_df(*fit, VectorXd::Unit(2, 0)) == Approx(6.1611135).epsilon(given));
  CHECK(satterthwaite_df(*fit, VectorXd::Unit(2, 1)) == Approx(5.9285708).epsilon(given));
  CHECK(fit->log_likelihood == Approx(58.388849).epsilon(given));
}

TEST_CASE("one diagonal component and no factor is ordinary least squares") {
  const Ladder ladder;
  const auto fit = reml(ladder.design, ladder.y, {residual(21)});
  REQUIRE(fit.ok());
  const VectorXd b = ladder.design.colPivHouseholderQr().solve(ladder.y);
  const double s2 = (ladder.y - ladder.design * b).squaredNorm() / 19;
  CHECK(fit->coefficients.isApprox(b, 1e-12));
  CHECK(fit->variances(0) == Approx(s2).epsilon(1e-12));
  CHECK(satterthwaite_df(*fit, VectorXd::Unit(2, 1)) == Approx(19).epsilon(1e-10));
  CHECK(fit->kenward_roger.isApprox(fit->covariance, 1e-10));
}

TEST_CASE("blocks of features with residual variances of their own") {
  // Two separate means, each with its own scatter: each keeps its own degrees of freedom.
  MatrixXd design = MatrixXd::Zero(9, 2);
  design.col(0).head(4).setOnes();
  design.col(1).tail(5).setOnes();
  const VectorXd y = vec({1.0, 1.2, 0.9, 1.1, 5, 6, 7, 5.5, 6.1});
  const auto fit =
      reml(design, y, {diagonal_component("lengths", design.col(0)), diagonal_component("holes", design.col(1))});
  REQUIRE(fit.ok());
  CHECK(fit->variances(0) == Approx(0.05 / 3).epsilon(1e-9));  // squares of -.05, .15, -.15, .05
  CHECK(satterthwaite_df(*fit, VectorXd::Unit(2, 0)) == Approx(3).epsilon(1e-9));
  CHECK(satterthwaite_df(*fit, VectorXd::Unit(2, 1)) == Approx(4).epsilon(1e-9));
  // Their difference: Welch and Satterthwaite.
  const VectorXd difference = vec({1, -1});
  const std::vector<Contribution> parts = {{std::sqrt(fit->covariance(0, 0)), 3},
                                           {std::sqrt(fit->covariance(1, 1)), 4}};
  CHECK(satterthwaite_df(*fit, difference) == Approx(welch_satterthwaite_df(parts)).epsilon(1e-9));
}

TEST_CASE("the variance of a fixed linear estimator: the feature means' least squares") {
  const Print print(11, 14, 3, 0);
  const auto fit = reml(print.design, print.y, print.components);
  REQUIRE(fit.ok());
  const MatrixXd& x = print.design;
  const MatrixXd a = (x.transpose() * x).inverse() * x.transpose();
  const Plain plain(x, print.y, print.components, fit->variances);
  const MatrixXd covariance = linear_estimator_covariance(a, print.components, fit->variances);
  CHECK(covariance.isApprox(a * plain.v * a.transpose(), 1e-12));
  for (Eigen::Index i = 0; i < 3; ++i) {
    const VectorXd row = a.row(i);
    const LinearEstimate estimate = linear_estimator_variance(row, print.components, *fit);
    CHECK(estimate.variance == Approx(covariance(i, i)).epsilon(1e-12));
    VectorXd g(5);
    for (Eigen::Index k = 0; k < 5; ++k)
      g(k) = row.dot(Plain::matrix(print.components[static_cast<std::size_t>(k)]) * row);
    CHECK(estimate.df ==
          Approx(2 * std::pow(covariance(i, i), 2) / g.dot(fit->variance_covariance * g)).epsilon(1e-10));
    CHECK(estimate.variance >= fit->covariance(i, i) * (1 - 1e-12));  // Gauss and Markov
  }
}

TEST_CASE("standard errors at known scatter of a coupon of 80 mm, three copies of three readings") {
  // scale x, y, z, edge growth, z offset, zero; noise: feature .03, feature and copy .02, copy edge .01 per edge, copy
  // scale .0003, reading .015 mm.
  struct Row {
    char axis;
    double side, nominal;
  };
  std::vector<Row> features;
  for (const char axis : {'x', 'y'})
    for (const double l : {10., 20., 40., 80.}) features.push_back({axis, 2, l});
  for (const char axis : {'x', 'y'})
    for (const double l : {10., 20., 40.}) features.push_back({axis, -2, l});
  for (const double l : {5., 10., 20., 40.}) features.push_back({'z', 0, l});
  const Eigen::Index n = 18 * 3;
  MatrixXd design = MatrixXd::Zero(n, 6);
  std::vector<int> feature, copy, copy_axis;
  VectorXd side(n), length(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const Row& f = features[static_cast<std::size_t>(i / 3)];
    const int axis = f.axis - 'x';
    design(i, axis) = f.nominal;
    design(i, 3) = f.side;
    design(i, 4) = f.axis == 'z' ? 1 : 0;
    design(i, 5) = 1;
    feature.push_back(static_cast<int>(i / 3));
    copy.push_back(static_cast<int>(i % 3));
    copy_axis.push_back(static_cast<int>(i % 3) * 3 + axis);
    side(i) = f.side;
    length(i) = f.nominal;
  }
  const std::vector<VarianceComponent> components = {grouped_component("feature", feature), residual(n),
                                                     grouped_component("copy edge", copy, side),
                                                     grouped_component("copy scale", copy, length)};
  const VectorXd theta = vec({.03 * .03, .02 * .02 + .015 * .015 / 3, .01 * .01, .0003 * .0003});
  Random random(1);
  const auto fit = known_variance_fit(design, random.normals(n), components, theta);
  REQUIRE(fit.ok());
  const VectorXd se = vec({0.00048813471, 0.00048813471, 0.0012257503, 0.0073900046, 0.031716267, 0.014955774});
  CHECK(VectorXd(fit->covariance.diagonal().cwiseSqrt()).isApprox(se, given));
}
