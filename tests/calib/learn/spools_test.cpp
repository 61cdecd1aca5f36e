// The next spool: published analyses, closed forms, laws, and how often the interval holds it.

#include "learn/spools.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <map>

#include "calib/learn/learning.hpp"
#include "stats/intervals.hpp"

using namespace fitwright;
using learning::margin;
using learning::Random;

namespace {

/// Log relative risks of the vaccine trials with their large-sample standard errors.
std::vector<SpoolValue> vaccine_trials() {
  std::vector<SpoolValue> out;
  for (const auto& row : learning::table("vaccine_trials.csv")) {
    const double a = std::stod(row[1]), b = std::stod(row[2]), c = std::stod(row[3]), d = std::stod(row[4]);
    out.push_back(
        {row[0], std::log(a / (a + b) / (c / (c + d))), std::sqrt(1 / a - 1 / (a + b) + 1 / c - 1 / (c + d))});
  }
  return out;
}

}  // namespace

TEST_CASE("random effects: thirteen vaccine trials, as published") {
  // Digits as printed (tests/reference/stats/vaccine_trials.csv has the source).
  const auto trials = vaccine_trials();
  REQUIRE(trials.size() == 13);
  const RandomEffects r = random_effects(trials).value();
  CHECK(std::pow(r.between_sd, 2) == Approx(0.3132).margin(0.00005));
  CHECK(r.mean == Approx(-0.7145).margin(0.00005));
  CHECK(r.mean_u == Approx(0.1808).margin(0.00005));
  CHECK(r.mean_u / std::sqrt(r.ratio) == Approx(0.1798).margin(0.00005));
  const double half = coverage_factor(0.95, 12) * r.mean_u;
  CHECK(r.mean - half == Approx(-1.1084).margin(0.00005));
  CHECK(r.mean + half == Approx(-0.3206).margin(0.00005));
  CHECK(std::exp(r.mean - usual_half_width(r, 0.95)) == Approx(0.14).margin(0.005));
  CHECK(std::exp(r.mean + usual_half_width(r, 0.95)) == Approx(1.76).margin(0.005));
}

TEST_CASE("random effects: Dyestuff, where the answer is the analysis of variance") {
  // Six batches of five yields; batch means with the pooled variance within, 2451.25, taken as known. Exact:
  // between batches 1764.05, mean 1527.5, its standard error 19.38341215231897 (Davies & Goldsmith, 1972, 6.4).
  std::map<std::string, double> sum;
  for (const auto& row : learning::table("dyestuff.csv")) sum[row[0]] += std::stod(row[1]);
  REQUIRE(sum.size() == 6);
  std::vector<SpoolValue> batches;
  for (const auto& [batch, total] : sum) batches.push_back({batch, total / 5, std::sqrt(2451.25 / 5)});
  const RandomEffects r = random_effects(batches).value();
  CHECK(std::pow(r.between_sd, 2) == Approx(1764.05).epsilon(1e-9));
  CHECK(r.mean == Approx(1527.5).epsilon(1e-12));
  CHECK(r.mean_u == Approx(19.38341215231897).epsilon(1e-9));
  CHECK(r.ratio == Approx(1).epsilon(1e-9));
}

TEST_CASE("random effects: laws") {
  const std::vector<SpoolValue> spools{
      {"a", 0.0031, 0.0004}, {"b", 0.0052, 0.0003}, {"c", 0.0040, 0.0006}, {"d", 0.0047, 0.0004}};
  const RandomEffects r = random_effects(spools).value();
  std::vector<SpoolValue> moved = spools, turned{spools[3], spools[1], spools[0], spools[2]};
  for (SpoolValue& v : moved) v = {v.spool, 0.5 - 1000 * v.value, 1000 * v.u};
  const RandomEffects m = random_effects(moved).value(), t = random_effects(turned).value();
  CHECK(m.mean == Approx(0.5 - 1000 * r.mean).epsilon(1e-9));
  CHECK(m.between_sd == Approx(1000 * r.between_sd).epsilon(1e-7));
  CHECK(m.mean_u == Approx(1000 * r.mean_u).epsilon(1e-7));
  CHECK(t.mean == Approx(r.mean).epsilon(1e-12));
  CHECK(t.between_sd == Approx(r.between_sd).epsilon(1e-9));
  CHECK(r.mean > 0.0031);
  CHECK(r.mean < 0.0052);

  // Less scatter than the uncertainties promise: none is found, and the mean's uncertainty does not shrink with it.
  const RandomEffects alike =
      random_effects({{"a", 0.004, 0.0004}, {"b", 0.004, 0.0004}, {"c", 0.0041, 0.0004}}).value();
  CHECK(alike.between_sd == 0);
  CHECK(alike.mean_u == Approx(0.0004 / std::sqrt(3.0)).epsilon(1e-12));
}

TEST_CASE("next spool: against the posterior integrated elsewhere") {
  // Gauss-Legendre panels and the information from projection matrices, in another language, twelve digits.
  const auto check = [](const std::vector<SpoolValue>& earlier, double value, double lower, double upper) {
    const SpoolForecast f = next_spool("", earlier).value();
    CHECK(f.value == Approx(value).epsilon(1e-8));
    CHECK(f.lower == Approx(lower).epsilon(1e-7));
    CHECK(f.upper == Approx(upper).epsilon(1e-7));
  };
  check({{"", 0.0031, 0.0004}, {"", 0.0052, 0.0003}, {"", 0.0040, 0.0006}, {"", 0.0047, 0.0004}}, 0.004281390305102394,
        0.0009382006161273674, 0.007580354171048662);
  check({{"", 0.0038, 0.0004}}, 0.0038, -0.0001936412977356452, 0.007793641297735626);
  check({{"", 0.0038, 0.0004}, {"", 0.0044, 0.0003}}, 0.004110358064287657, 0.0011667024725247421,
        0.007045099522107079);
}

TEST_CASE("next spool: well measured spools give Student's t") {
  // u small beside the scatter: mean +- t(k - 1) s sqrt(1 + 1/k), as for any normal sample.
  std::vector<SpoolValue> earlier;
  double sum = 0, squares = 0;
  for (const double v : {0.0031, 0.0052, 0.0040, 0.0047, 0.0044}) {
    earlier.push_back({"", v, 1e-6});
    sum += v;
    squares += v * v;
  }
  const double s = std::sqrt((squares - sum * sum / 5) / 4);
  const SpoolForecast f = next_spool("", earlier).value();
  CHECK(f.df == 4);
  CHECK(f.value == Approx(sum / 5).epsilon(1e-6));
  CHECK(f.u == Approx(s * std::sqrt(1.2)).epsilon(1e-4));
  CHECK(f.upper - f.value == Approx(coverage_factor(0.95, 4) * s * std::sqrt(1.2)).epsilon(1e-4));
  CHECK(usual_half_width(random_effects(earlier).value(), 0.95) == Approx(f.upper - f.value).epsilon(1e-4));
}

TEST_CASE("next spool: one or two spools lean on the typical scatter") {
  const SpoolForecast one = next_spool("PLA slate", {{"batch 14", 0.0038, 0.0004}}).value();
  CHECK(one.value == Approx(0.0038).epsilon(1e-12));
  CHECK(one.typical_scatter);
  CHECK(one.df == typical_spool_df);
  CHECK(one.upper - one.value > coverage_factor(0.95, 4) * std::sqrt(2.0) * typical_spool_sd);
  CHECK(one.sentence ==
        "A new spool of PLA slate is expected to shrink by 0.38 % (± 0.40 %), from one earlier spool and "
        "the typical scatter between spools: expected, not measured.");
  const SpoolForecast two =
      next_spool("PLA slate", {{"batch 14", 0.0038, 0.0004}, {"batch 15", 0.0044, 0.0004}}).value();
  CHECK(two.df == typical_spool_df + 1);
  CHECK(two.value == Approx(0.0041));
  CHECK(two.upper - two.value < one.upper - one.value);
}

TEST_CASE("next spool: what is wrong is said, all of it") {
  CHECK(next_spool("PETG clear", {}).problems()[0].code == Code::unanswerable);
  const Problems told = next_spool("x", {{"a", std::nan(""), 1}, {"b", 1, 0}, {"c", 1, 1}}).problems();
  REQUIRE(told.size() == 2);
  CHECK(told[0].code == Code::bad_input);
  CHECK(told[0].what.find("\"a\"") != std::string::npos);
  CHECK(told[1].what.find("\"b\"") != std::string::npos);
  CHECK(random_effects({{"a", 1, 1}}).problems()[0].code == Code::unanswerable);
}

TEST_CASE("next spool: the interval holds the next spool as often as promised") {
  // Uncertainty of one calibration 0.0003 or 0.0005, spools that scatter by as much and by thrice as much. Never less
  // than 95 %; more where spools differ little or few show it, since the readings then leave their scatter open.
  constexpr int runs = 400;
  Random random(6);
  for (const double between : {0.0004, 0.0012})
    for (const int spools : {1, 3, 5, 8}) {
      int held = 0;
      for (int run = 0; run < runs; ++run) {
        std::vector<SpoolValue> earlier;
        for (int i = 0; i < spools; ++i) {
          const double u = i % 2 ? 0.0003 : 0.0005;
          earlier.push_back({"", 0.004 + between * random.normal() + u * random.normal(), u});
        }
        const SpoolForecast f = next_spool("", earlier).value();
        const double next = 0.004 + between * random.normal();
        held += f.lower <= next && next <= f.upper;
      }
      INFO(between << " between, " << spools << " spools: " << held << " of " << runs);
      CHECK(held >= (0.95 - margin(0.95, runs)) * runs);
      if (between > 0.001 && spools > 3) CHECK(held <= (0.95 + margin(0.95, runs)) * runs);
    }
}
