// Mixed models with exact answers, and what must hold whatever the numbers.

#include "stats/reml.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>
#include <chrono>
#include <cmath>
#include <iostream>
#include <map>
#include <random>

#include "reference/stats/lre.hpp"
#include "stats/intervals.hpp"

using namespace fitwright;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

constexpr double exact = 1e-9;  // relative, against closed forms in exact arithmetic
constexpr double given = 1e-7;  // check values are given to eight significant digits
const double log_two_pi = std::log(2 * std::acos(-1.0));

std::vector<int> levels(const std::vector<std::string>& names) {
  std::map<std::string, int> seen;
  std::vector<int> out;
  for (const std::string& name : names)
    out.push_back(seen.try_emplace(name, static_cast<int>(seen.size())).first->second);
  return out;
}

VectorXd column(const reference::Table& data, const std::string& name) {
  const auto values = data.numbers(name);
  return Eigen::Map<const VectorXd>(values.data(), static_cast<Eigen::Index>(values.size()));
}

VarianceComponent residual(Eigen::Index n) { return diagonal_component("residual", VectorXd::Ones(n)); }

VectorXd vec(std::initializer_list<double> values) {
  VectorXd v(static_cast<Eigen::Index>(values.size()));
  std::copy(values.begin(), values.end(), v.data());
  return v;
}

/// Deviations of eight features of four lengths, read one to four times.
struct Ladder {
  std::vector<int> feature = {0, 0, 0, 1, 1, 2, 2, 2, 2, 3, 3, 3, 4, 5, 5, 5, 6, 6, 7, 7, 7};
  MatrixXd design{21, 2};
  VectorXd y =
      vec({.10, .11, .09, .17, .15, .21, .19, .18, .20, .25, .22, .24, .06, .13, .11, .12, .20, .17, .31, .28, .30});
  std::vector<VarianceComponent> components = {grouped_component("feature", feature), residual(21)};
  Ladder() {
    design.col(0).setOnes();
    design.col(1) = vec({10, 10, 10, 20, 20, 40, 40, 40, 40, 80, 80, 80, 10, 20, 20, 20, 40, 40, 80, 80, 80});
  }
};

/// V and the restricted likelihood from their definitions, n x n.
struct Plain {
  MatrixXd v, v_inverse, phi;
  VectorXd b;
  double log_likelihood = 0;
  Plain(const MatrixXd& x, const VectorXd& y, const std::vector<VarianceComponent>& parts, const VectorXd& theta) {
    v = MatrixXd::Zero(y.size(), y.size());
    for (std::size_t k = 0; k < parts.size(); ++k) v += theta(static_cast<Eigen::Index>(k)) * matrix(parts[k]);
    v_inverse = v.inverse();
    phi = (x.transpose() * v_inverse * x).inverse();
    b = phi * x.transpose() * v_inverse * y;
    const VectorXd e = y - x * b;
    log_likelihood = -0.5 * (std::log(v.determinant()) - std::log(phi.determinant()) + e.dot(v_inverse * e));
  }
  static MatrixXd matrix(const VarianceComponent& c) {
    return c.factor.size() > 0 ? MatrixXd(c.factor * c.factor.transpose()) : MatrixXd(c.diagonal.asDiagonal());
  }
};

struct Random {
  std::mt19937_64 bits;
  explicit Random(unsigned seed) : bits(seed) {}
  double uniform() { return (static_cast<double>(bits() >> 11) + 0.5) * 0x1p-53; }
  double normal() { return normal_quantile(uniform()); }
  VectorXd normals(Eigen::Index n) {
    return VectorXd::NullaryExpr(n, [this] { return normal(); });
  }
};

/// Features x copies with some cells missing: scale and edge growth, feature, copy edge, copy scale, cell, reading.
struct Print {
  MatrixXd design;
  VectorXd y;
  std::vector<VarianceComponent> components;
  explicit Print(unsigned seed, int features = 14, int copies = 3, double missing = 0.25) {
    Random random(seed);
    std::vector<int> feature, copy;
    std::vector<double> length, side, weight;
    const VectorXd f = 0.03 * random.normals(features), edge = 0.02 * random.normals(copies),
                   scale = 0.0006 * random.normals(copies);
    std::vector<double> values;
    for (int i = 0; i < features; ++i)
      for (int c = 0; c < copies; ++c) {
        if (random.uniform() < missing) continue;
        const double nominal = 10.0 * (1 << (i % 4));
        const double sign = i % 3 == 2 ? -2 : 2;
        const int readings = 1 + (i + c) % 3;
        feature.push_back(i);
        copy.push_back(c);
        length.push_back(nominal);
        side.push_back(sign);
        weight.push_back(1.0 / readings);
        values.push_back(0.08 * sign - 0.003 * nominal + f(i) + sign * edge(c) + scale(c) * nominal +
                         0.02 * random.normal() + 0.015 / std::sqrt(readings) * random.normal());
      }
    const auto n = static_cast<Eigen::Index>(values.size());
    const auto as_vector = [n](const std::vector<double>& v) {
      return VectorXd(Eigen::Map<const VectorXd>(v.data(), n));
    };
    y = as_vector(values);
    design.resize(n, 3);
    design << as_vector(length), as_vector(side), VectorXd::Ones(n);
    components = {grouped_component("feature", feature), grouped_component("copy edge", copy, as_vector(side)),
                  grouped_component("copy scale", copy, as_vector(length)), residual(n),
                  diagonal_component("reading", as_vector(weight))};
  }
};

}  // namespace

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
