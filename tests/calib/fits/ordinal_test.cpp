// The ordinal engine without any prior, against published data sets.

#include "fits/ordinal.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "reference/stats/lre.hpp"

namespace {

using fitwright::Link;
using fitwright::OrdinalData;
using fitwright::reference::Table;

struct Exact {
  std::vector<double> value, se;
  double log_likelihood = 0;
};

Exact exact(const std::string& set, const std::string& link) {
  const Table table = fitwright::reference::read_table("ordinal_exact.csv");
  Exact out;
  for (const auto& row : table.rows) {
    if (row.at(0) != set || row.at(1) != link) continue;
    if (row.at(2) == "log_likelihood") {
      out.log_likelihood = std::stod(row.at(3));
    } else {
      out.value.push_back(std::stod(row.at(3)));
      out.se.push_back(std::stod(row.at(4)));
    }
  }
  return out;
}

/// Digits that must agree: the exact values have 16, and double arithmetic keeps at least these through the
/// information matrix (condition 1e4 on the beetles' narrow doses).
constexpr double digits = 10;

void check(const OrdinalData& data, Link link, const Exact& wanted, const std::vector<double>& sign) {
  const auto fit = fitwright::fit_ordinal(data, link);
  REQUIRE(fit.ok());
  REQUIRE(fit->parameters.size() == static_cast<Eigen::Index>(wanted.value.size()));
  for (Eigen::Index i = 0; i < fit->parameters.size(); ++i) {
    const auto k = static_cast<std::size_t>(i);
    CHECK(fitwright::reference::lre(sign[k] * fit->parameters[i], wanted.value[k]) > digits);
    CHECK(fitwright::reference::lre(std::sqrt(fit->covariance(i, i)), wanted.se[k]) > digits);
  }
  CHECK(fitwright::reference::lre(fit->log_likelihood, wanted.log_likelihood) > digits);
}

Link link_of(const std::string& name) {
  return name == "probit" ? Link::probit : name == "logit" ? Link::logit : Link::cloglog;
}

/// Two categories: 0 happened, 1 did not; P(Y <= 0) = F(theta - x b), so that intercept = theta and slope = -b.
OrdinalData yes_no(const std::vector<double>& x, const std::vector<double>& yes, const std::vector<double>& no) {
  OrdinalData data;
  const auto n = static_cast<Eigen::Index>(x.size());
  data.x.resize(2 * n, 1);
  data.weight.resize(2 * n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto k = static_cast<std::size_t>(i);
    data.x(2 * i, 0) = data.x(2 * i + 1, 0) = x[k];
    data.weight[2 * i] = yes[k];
    data.weight[2 * i + 1] = no[k];
    data.category.insert(data.category.end(), {0, 1});
  }
  return data;
}

}  // namespace

TEST_CASE("wine bitterness: five grades, two factors") {
  const Table wine = fitwright::reference::read_table("wine.csv");
  OrdinalData data;
  data.categories = 5;
  const auto rating = wine.numbers("rating");
  const auto temp = wine.column("temp"), contact = wine.column("contact");
  data.x.resize(static_cast<Eigen::Index>(rating.size()), 2);
  for (std::size_t i = 0; i < rating.size(); ++i) {
    data.category.push_back(static_cast<int>(rating[i]) - 1);
    data.x(static_cast<Eigen::Index>(i), 0) = temp[i] == "warm" ? 1 : 0;
    data.x(static_cast<Eigen::Index>(i), 1) = contact[i] == "yes" ? 1 : 0;
  }
  REQUIRE(rating.size() == 72);
  for (const std::string link : {"logit", "probit"})
    check(data, link_of(link), exact("wine", link), {1, 1, 1, 1, 1, 1});
}

TEST_CASE("beetle mortality: three links") {
  const Table table = fitwright::reference::read_table("beetles.csv");
  const auto n = table.numbers("n"), killed = table.numbers("killed");
  std::vector<double> alive;
  for (std::size_t i = 0; i < n.size(); ++i) alive.push_back(n[i] - killed[i]);
  for (const std::string link : {"logit", "probit", "cloglog"})
    check(yes_no(table.numbers("log10_dose"), killed, alive), link_of(link), exact("beetles", link), {1, -1});
}

TEST_CASE("O-rings: a launch with distress, and rings out of six") {
  const Table table = fitwright::reference::read_table("challenger.csv");
  const auto temperature = table.numbers("temperature_F");
  const auto any = table.numbers("any_failure"), failed = table.numbers("n_failures_of_6");
  std::vector<double> none, sound;
  for (std::size_t i = 0; i < any.size(); ++i) {
    none.push_back(1 - any[i]);
    sound.push_back(6 - failed[i]);
  }
  check(yes_no(temperature, any, none), Link::logit, exact("challenger_any", "logit"), {1, -1});
  check(yes_no(temperature, failed, sound), Link::logit, exact("challenger_six", "logit"), {1, -1});
}

TEST_CASE("without a prior, perfect separation has no finite maximum, and that is told") {
  const auto fit = fitwright::fit_ordinal(yes_no({1, 2, 3, 4}, {0, 0, 1, 1}, {1, 1, 0, 0}), Link::probit);
  REQUIRE_FALSE(fit.ok());
  CHECK(fit.problems().front().code == fitwright::Code::unanswerable);
}

TEST_CASE("log of the normal distribution keeps its digits in the tails") {
  // Abramowitz & Stegun, table 26.2: -log10 Q(x) for x = 5 to 500.
  const double ln10 = std::log(10.0);
  CHECK(-fitwright::log_normal_chance(-5) / ln10 == Approx(6.54265).margin(5e-6));
  CHECK(-fitwright::log_normal_chance(-10) / ln10 == Approx(23.11805).margin(5e-6));
  CHECK(-fitwright::log_normal_chance(-50) / ln10 == Approx(544.96634).margin(5e-6));
  CHECK(-fitwright::log_normal_chance(-100) / ln10 == Approx(2173.87154).margin(5e-6));
  // The two formulas meet.
  CHECK(fitwright::log_normal_chance(-29.999999) == Approx(fitwright::log_normal_chance(-30.000001)).epsilon(1e-6));
}
