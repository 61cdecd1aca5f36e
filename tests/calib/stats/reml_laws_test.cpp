// Mixed models: what must hold whatever the numbers.

#include <catch2/catch.hpp>

#include "reml_helpers.hpp"
#include "stats/reml.hpp"

using namespace fitwright;
using namespace fitwright::reml_test;

TEST_CASE("the factored computation equals the one from n x n definitions") {
  const Print print(3);
  const auto fit = reml(print.design, print.y, print.components);
  REQUIRE(fit.ok());
  CHECK(fit->end == RemlEnd::converged);
  const Plain plain(print.design, print.y, print.components, fit->variances);
  CHECK(fit->log_likelihood == Approx(plain.log_likelihood).epsilon(1e-9));
  CHECK(fit->coefficients.isApprox(plain.b, 1e-8));
  CHECK(fit->covariance.isApprox(plain.phi, 1e-8));

  // Expected information, sensitivities and Kenward-Roger from their definitions.
  const MatrixXd& x = print.design;
  const MatrixXd p = plain.v_inverse - plain.v_inverse * x * plain.phi * x.transpose() * plain.v_inverse;
  std::vector<Eigen::Index> free;
  for (Eigen::Index k = 0; k < 5; ++k)
    if (fit->variances(k) > 0) free.push_back(k);
  const auto count = static_cast<Eigen::Index>(free.size());
  MatrixXd information(count, count);
  std::vector<MatrixXd> v;
  for (const Eigen::Index k : free) v.push_back(Plain::matrix(print.components[static_cast<std::size_t>(k)]));
  for (Eigen::Index k = 0; k < count; ++k)
    for (Eigen::Index l = 0; l < count; ++l)
      information(k, l) = 0.5 * (p * v[static_cast<std::size_t>(k)] * p * v[static_cast<std::size_t>(l)]).trace();
  const MatrixXd w = information.inverse();
  CHECK(MatrixXd(fit->variance_covariance(free, free)).isApprox(w, 1e-6));
  MatrixXd lambda = MatrixXd::Zero(3, 3);
  for (Eigen::Index k = 0; k < count; ++k) {
    const MatrixXd vk = plain.v_inverse * v[static_cast<std::size_t>(k)] * plain.v_inverse;
    const MatrixXd pk = x.transpose() * vk * x;
    CHECK(fit->sensitivity[static_cast<std::size_t>(free[static_cast<std::size_t>(k)])].isApprox(
        plain.phi * pk * plain.phi, 1e-7));
    for (Eigen::Index l = 0; l < count; ++l) {
      const MatrixXd vl = v[static_cast<std::size_t>(l)] * plain.v_inverse;
      const MatrixXd pl = x.transpose() * plain.v_inverse * vl * x;
      lambda += w(k, l) * (x.transpose() * vk * vl * x - pk * plain.phi * pl);
    }
  }
  CHECK(fit->kenward_roger.isApprox(plain.phi + 2 * plain.phi * lambda * plain.phi, 1e-6));
}

TEST_CASE("no small change of a variance raises the restricted likelihood") {
  for (unsigned seed = 1; seed <= 25; ++seed) {
    INFO("seed " << seed);
    const Print print(seed);
    const auto fit = reml(print.design, print.y, print.components);
    REQUIRE(fit.ok());
    CHECK(fit->end == RemlEnd::converged);
    CHECK(fit->iterations < 40);
    for (Eigen::Index k = 0; k < 5; ++k) {
      const double step = 1e-3 * (fit->variances(k) > 0 ? fit->variances(k) : fit->variances.maxCoeff() * 1e-3);
      for (const double sign : {1.0, -1.0}) {
        VectorXd theta = fit->variances;
        theta(k) += sign * step;
        if (theta(k) < 0) continue;
        const auto near = known_variance_fit(print.design, print.y, print.components, theta);
        REQUIRE(near.ok());
        CHECK(near->log_likelihood <= fit->log_likelihood + 1e-9);
      }
    }
  }
}

TEST_CASE("a mixed fit follows shifts, units and order") {
  const Print print(5);
  const auto fit = reml(print.design, print.y, print.components);
  REQUIRE(fit.ok());
  const VectorXd ones = VectorXd::Ones(3);

  SECTION("adding X c to the readings moves the coefficients alone") {
    const VectorXd c = vec({0.5, -2, 3});
    const auto other = reml(print.design, print.y + print.design * c, print.components);
    REQUIRE(other.ok());
    CHECK(other->coefficients.isApprox(fit->coefficients + c, 1e-9));
    CHECK(other->variances.isApprox(fit->variances, 1e-6));
  }
  SECTION("readings in micrometres, lengths in inches") {
    MatrixXd design = print.design;
    design.col(0) /= 25.4;
    auto components = print.components;
    components[2].factor /= 25.4;
    const auto other = reml(design, 1000 * print.y, components);
    REQUIRE(other.ok());
    const VectorXd unit = vec({25400, 1000, 1000});
    CHECK(other->coefficients.isApprox(unit.asDiagonal() * fit->coefficients, 1e-7));
    CHECK(other->kenward_roger.isApprox(unit.asDiagonal() * fit->kenward_roger * unit.asDiagonal(), 1e-6));
    CHECK(other->variances(2) == Approx(1e6 * 25.4 * 25.4 * fit->variances(2)).epsilon(1e-6));
    for (int i = 0; i < 3; ++i)
      CHECK(satterthwaite_df(*other, VectorXd::Unit(3, i)) ==
            Approx(satterthwaite_df(*fit, VectorXd::Unit(3, i))).epsilon(1e-6));
  }
  SECTION("rows in another order") {
    const Eigen::Index n = print.y.size();
    std::vector<Eigen::Index> order(static_cast<std::size_t>(n));
    for (Eigen::Index i = 0; i < n; ++i) order[static_cast<std::size_t>(i)] = (i * 7 + 3) % n;
    REQUIRE(n % 7 != 0);
    auto components = print.components;
    for (VarianceComponent& c : components) {
      if (c.factor.size() > 0) c.factor = MatrixXd(c.factor(order, Eigen::all));
      if (c.diagonal.size() > 0) c.diagonal = VectorXd(c.diagonal(order));
    }
    const auto other = reml(print.design(order, Eigen::all), print.y(order), components);
    REQUIRE(other.ok());
    CHECK(other->coefficients.isApprox(fit->coefficients, 1e-8));
    CHECK(other->variances.isApprox(fit->variances, 1e-6));
    CHECK(other->log_likelihood == Approx(fit->log_likelihood).epsilon(1e-10));
  }
}
