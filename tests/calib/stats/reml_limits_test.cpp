// Mixed models at their limits: few copies, priors on variances, and what cannot be answered.

#include <catch2/catch.hpp>
#include <chrono>
#include <iostream>

#include "reml_helpers.hpp"
#include "stats/reml.hpp"

using namespace fitwright;
using namespace fitwright::reml_test;

TEST_CASE("few copies with weak priors on what they share: every fit ends, above zero where a prior says so") {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    INFO("seed " << seed);
    const int copies = 1 + static_cast<int>(seed % 3);
    Print print(seed, 14, copies, copies > 1 ? 0.2 : 0.0);
    print.components[0].prior = VariancePrior{0.03 * 0.03, 3};
    print.components[1].prior = VariancePrior{0.015 * 0.015, 4};
    print.components[2].prior = VariancePrior{0.0006 * 0.0006, 4};
    print.components[4].prior = VariancePrior{0.015 * 0.015, 20};
    const auto fit = reml(print.design, print.y, print.components);
    REQUIRE(fit.ok());
    CHECK(fit->end == RemlEnd::converged);
    for (const int k : {0, 1, 2, 4}) CHECK(fit->variances(k) > 0);
    for (int i = 0; i < 3; ++i) {
      CHECK(fit->kenward_roger(i, i) > 0);
      CHECK(satterthwaite_df(*fit, VectorXd::Unit(3, i)) > 1);
    }
  }
}

TEST_CASE("a prior moderates a variance by its degrees of freedom") {
  SECTION("where the data are silent it is the answer, with its own degrees of freedom") {
    // One copy: the copy's edge effect cannot be told from the edge growth itself.
    const Print one(7, 14, 1, 0);
    std::vector<VarianceComponent> components = {one.components[1], residual(one.y.size())};
    components[0].prior = VariancePrior{0.015 * 0.015, 4};
    const auto fit = reml(one.design, one.y, components);
    REQUIRE(fit.ok());
    CHECK(fit->end == RemlEnd::converged);
    CHECK(fit->variances(0) == Approx(0.015 * 0.015).epsilon(1e-8));
    const double own = 1.0 / std::pow(fit->covariance(1, 1), 2) *
                       (std::pow(0.015 * 0.015, 2) / 4 +
                        std::pow(fit->covariance(1, 1) - 0.015 * 0.015, 2) / static_cast<double>(one.y.size() - 3));
    CHECK(satterthwaite_df(*fit, VectorXd::Unit(3, 1)) == Approx(1 / own).epsilon(1e-7));
  }
  SECTION("beside data it is averaged in, weighted by degrees of freedom") {
    // One mean of 9 values: (8 s^2 + 4 v) / 12 with 12 degrees of freedom.
    const VectorXd y = vec({3, 1, 4, 1, 5, 9, 2, 6, 5});
    const double s2 = (y.array() - y.mean()).square().sum() / 8;
    auto component = residual(9);
    component.prior = VariancePrior{2.5, 4};
    const auto fit = reml(MatrixXd::Ones(9, 1), y, {component});
    REQUIRE(fit.ok());
    CHECK(fit->variances(0) == Approx((8 * s2 + 4 * 2.5) / 12).epsilon(1e-10));
    CHECK(satterthwaite_df(*fit, VectorXd::Ones(1)) == Approx(12).epsilon(1e-9));
    CHECK(fit->log_prior == Approx(-2 * (std::log(fit->variances(0)) + 2.5 / fit->variances(0))).epsilon(1e-12));
  }
  SECTION("readings without any scatter fall back on it") {
    auto component = residual(4);
    component.prior = VariancePrior{1e-4, 3};
    const auto fit = reml(MatrixXd::Ones(4, 1), VectorXd::Constant(4, 10.02), {component});
    REQUIRE(fit.ok());
    CHECK(fit->variances(0) == Approx(3 * 1e-4 / 6).epsilon(1e-9));
  }
}

TEST_CASE("what a mixed fit cannot answer is said") {
  const Print print(9);
  SECTION("a component that acts like a fixed effect") {
    const Print one(7, 14, 1, 0);
    const auto fit = reml(one.design, one.y, {one.components[1], residual(one.y.size())});
    REQUIRE_FALSE(fit.ok());
    CHECK(fit.problems()[0].code == Code::unanswerable);
    CHECK(fit.problems()[0].what.find("copy edge") != std::string::npos);
    CHECK(fit.problems()[0].what.find("residual") == std::string::npos);
  }
  SECTION("two components that are one and the same") {
    auto twin = print.components[0];
    twin.name = "twin";
    const auto fit = reml(print.design, print.y, {print.components[0], twin, print.components[3]});
    REQUIRE_FALSE(fit.ok());
    CHECK(fit.problems()[0].what.find("feature, twin") != std::string::npos);
  }
  SECTION("fixed effects that cannot be told apart") {
    MatrixXd design(print.y.size(), 4);
    design << print.design, print.design.col(1) - print.design.col(2);
    const auto fit = reml(design, print.y, print.components);
    REQUIRE_FALSE(fit.ok());
    CHECK(fit.problems()[0].what.find("3 of 4") != std::string::npos);
  }
  SECTION("no scatter at all") {
    const auto fit = reml(MatrixXd::Ones(4, 1), VectorXd::Constant(4, 10.02), {residual(4)});
    REQUIRE_FALSE(fit.ok());
    CHECK(fit.problems()[0].code == Code::unanswerable);
  }
  SECTION("a reading that is not a number") {
    VectorXd y = print.y;
    y(3) = std::nan("");
    const auto fit = reml(print.design, y, print.components);
    REQUIRE_FALSE(fit.ok());
    CHECK(fit.problems()[0].code == Code::bad_input);
  }
  SECTION("defects of the caller throw") {
    CHECK_THROWS_AS(reml(print.design, print.y, {print.components[0]}), std::invalid_argument);
    CHECK_THROWS_AS(reml(print.design, print.y.head(3), print.components), std::invalid_argument);
    CHECK_THROWS_AS(reml(print.design, print.y, {VarianceComponent{}}), std::invalid_argument);
  }
}

TEST_CASE("copies that read alike leave no scatter of single readings: said without a prior, fitted with one") {
  Print print(13, 8, 2, 0);
  for (Eigen::Index i = 0; i + 1 < print.y.size(); i += 2) print.y(i + 1) = print.y(i);
  std::vector<VarianceComponent> components = {print.components[0], print.components[3]};
  const auto without = reml(print.design, print.y, components);
  REQUIRE_FALSE(without.ok());
  CHECK(without.problems()[0].code == Code::unanswerable);
  CHECK(without.problems()[0].what.find("exactly") != std::string::npos);
  components[1].prior = VariancePrior{1e-4, 4};
  const auto with = reml(print.design, print.y, components);
  REQUIRE(with.ok());
  CHECK(with->end == RemlEnd::converged);
  CHECK(with->variances(1) == Approx(4 * 1e-4 / (4 + 8)).epsilon(1e-6));  // eight differences of nothing beside it
  CHECK(with->variances(0) > 0);
}

TEST_CASE("time of a mixed fit", "[.time]") {
  for (const auto& [features, copies] : {std::pair{14, 3}, {42, 3}, {160, 3}}) {
    const Print print(1, features, copies, 0);
    const auto begin = std::chrono::steady_clock::now();
    const auto fit = reml(print.design, print.y, print.components);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
    REQUIRE(fit.ok());
    std::cout << print.y.size() << " cells, " << fit->iterations << " iterations, " << 1000 * took.count() << " ms\n";
  }
}
