// The control chart: worked and published values, how often it cries wolf, and how soon it sees a drift.

#include "learn/chart.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "calib/learn/learning.hpp"

using namespace fitwright;
using learning::margin;
using learning::Random;

namespace {

std::vector<ChartPoint> points(const std::vector<double>& values) {
  std::vector<ChartPoint> out;
  for (const double v : values) out.push_back({"coupon " + std::to_string(out.size() + 1), v});
  return out;
}

/// Share of charts of twelve coupons with a signal, all coupons after the baseline moved by `shift` standard
/// deviations.
double signals(int baseline, double shift, int runs, unsigned seed) {
  Random random(seed);
  const ChartOptions o = shrink_chart();
  int seen = 0;
  for (int run = 0; run < runs; ++run) {
    std::vector<ChartPoint> before, after;
    for (int i = 0; i < baseline; ++i) before.push_back({"", 0.0035 + o.usual_sd * random.normal()});
    for (int i = 0; i < 12; ++i) after.push_back({"", 0.0035 + o.usual_sd * (shift + random.normal())});
    seen += ewma_chart(before, after, o).value().first_signal.has_value();
  }
  return static_cast<double>(seen) / runs;
}

}  // namespace

TEST_CASE("chart: shrink factor over nine coupons, worked elsewhere") {
  // numpy, eight digits.
  const Chart c =
      ewma_chart(points({0.00352, 0.00341, 0.00366, 0.00349, 0.00337}), points({0.00355, 0.00371, 0.00388, 0.00392}))
          .value();
  constexpr double digits = 1e-6;
  CHECK(c.mean == Approx(0.00349).epsilon(digits));
  CHECK(c.sd == Approx(0.00033299149).epsilon(digits));
  CHECK(c.baseline == 5);
  const double z[] = {0.036036957, 0.16096507, 0.36301228, 0.54867468};
  const double limit[] = {0.62659461, 0.865215, 1.0296508, 1.151782};
  REQUIRE(c.steps.size() == 4);
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(c.steps[i].z == Approx(z[i]).epsilon(digits));
    CHECK(c.steps[i].limit == Approx(limit[i]).epsilon(digits));
    CHECK_FALSE(c.steps[i].beyond);
  }
  CHECK_FALSE(c.first_signal);
  CHECK(c.moved == Approx(0.54867468 * 0.00033299149).epsilon(digits));
  CHECK(
      c.sentence ==
      "No drift to be seen: over 4 points since the baseline the shrink factor stays where the first 5 put it, within "
      "0.04 %.");
}

TEST_CASE("chart: the example of the e-Handbook") {
  // Mean 50 and standard deviation 2.0539 are known there: a baseline about 50 whose scatter counts for nothing.
  ChartOptions o;
  o.lambda = 0.3;
  o.limit = 3;
  o.usual_sd = 2.0539;
  o.usual_df = 1e12;
  std::vector<ChartPoint> later;
  std::vector<double> published;
  for (const auto& row : learning::table("ewma_handbook.csv")) {
    later.push_back({row[0], std::stod(row[0])});
    published.push_back(std::stod(row[1]));
  }
  REQUIRE(later.size() == 20);
  const Chart c = ewma_chart(points({49, 50, 51}), later, o).value();
  for (std::size_t i = 0; i < later.size(); ++i)
    CHECK(50 + c.steps[i].z * c.sd == Approx(published[i]).margin(0.005001));  // printed to two decimals
  // Without the baseline's own part, the last limit is the handbook's (the start is long forgotten).
  const double kept = std::pow(0.7, 20);
  const double own = std::sqrt(std::pow(c.steps.back().limit, 2) - 9 * std::pow(1 - kept, 2) / 3);
  CHECK(50 + own * c.sd == Approx(52.5884).margin(0.0001));
  CHECK_FALSE(c.first_signal);
}

TEST_CASE("chart: false alarms within twelve coupons are few, even after three") {
  // Shares found in a study of L = 2.86 and lambda = 0.2 with the two terms, two digits: 0.03, 0.04, 0.04. A run's
  // scatter is the usual one. Margin: four standard errors and the rounding.
  constexpr int runs = 10000;
  const int baseline[] = {3, 5, 10};
  const double told[] = {0.03, 0.04, 0.04};
  for (int i = 0; i < 3; ++i) {
    const double share = signals(baseline[i], 0, runs, 11);
    INFO(baseline[i] << " baseline points: " << share);
    CHECK(std::abs(share - told[i]) <= 0.005 + margin(told[i], runs));
  }
}

TEST_CASE("chart: drifts are seen within twelve coupons") {
  // The same study: 0.32, 0.89, 1.00 for one, two, three standard deviations after five baseline points.
  constexpr int runs = 4000;
  const double told[] = {0.32, 0.89, 1.00};
  for (int shift = 1; shift <= 3; ++shift) {
    const double share = signals(5, shift, runs, 12);
    INFO("shift " << shift << ": " << share);
    CHECK(std::abs(share - told[shift - 1]) <= 0.005 + margin(told[shift - 1], runs));
  }
}

TEST_CASE("chart: with a baseline known exactly the limits are those of the tables") {
  // Lucas & Saccucci (1990), from memory: lambda 0.2 with L 2.86 has about 370 points between false alarms. Run lengths
  // by a chain of states (Brook & Evans, Biometrika 59 (1972)) gave 364 with limits that start narrow.
  ChartOptions o;
  o.usual_sd = 1;
  o.usual_df = 1e12;
  Random random(370);
  std::vector<ChartPoint> before;
  for (int i = 0; i < 100000; ++i) before.push_back({"", (i % 2 ? 1.0 : -1.0) * 1e-9});
  double total = 0, squares = 0;
  constexpr int runs = 300;
  for (int run = 0; run < runs; ++run) {
    double z = 0, kept = 1;  // written out: a chart holds its points, and this one goes on until it signals
    int n = 0;
    for (;;) {
      z = 0.8 * z + 0.2 * random.normal();
      kept *= 0.8;
      ++n;
      if (std::abs(z) > 2.86 * std::sqrt(0.2 / 1.8 * (1 - kept * kept))) break;
    }
    total += n;
    squares += static_cast<double>(n) * n;
  }
  const double mean = total / runs, se = std::sqrt((squares / runs - mean * mean) / runs);
  CHECK(std::abs(mean - 364) < 4 * se);
  const Chart c = ewma_chart(before, points({0, 0, 0}), o).value();
  CHECK(c.steps[2].limit == Approx(2.86 * std::sqrt(0.2 / 1.8 * (1 - std::pow(0.8, 6)))).epsilon(1e-4));
}

TEST_CASE("chart: laws") {
  const std::vector<double> before{0.1, 0.3, 0.2, 0.25}, after{0.4, 0.1, 0.9, 0.2, 0.6};
  ChartOptions o;
  o.usual_sd = 0.1;
  const Chart c = ewma_chart(points(before), points(after), o).value();
  // Another unit and origin, and the sign.
  for (const double factor : {25.4, -1.0}) {
    ChartOptions other = o;
    other.usual_sd = 0.1 * std::abs(factor);
    auto changed = [&](std::vector<double> v) {
      for (double& x : v) x = 3 + factor * x;
      return points(v);
    };
    const Chart d = ewma_chart(changed(before), changed(after), other).value();
    for (std::size_t i = 0; i < after.size(); ++i) {
      CHECK(d.steps[i].z == Approx(c.steps[i].z * (factor > 0 ? 1 : -1)).epsilon(1e-9));
      CHECK(d.steps[i].limit == c.steps[i].limit);
    }
  }
  // The past does not change when a point is added; limits widen towards their end.
  const Chart shorter = ewma_chart(points(before), points({0.4, 0.1}), o).value();
  CHECK(shorter.steps[1].z == c.steps[1].z);
  for (std::size_t i = 1; i < after.size(); ++i) CHECK(c.steps[i].limit > c.steps[i - 1].limit);
  // One series: five for the baseline, the rest judged.
  std::vector<double> all = before;
  all.insert(all.end(), after.begin(), after.end());
  const Chart series = ewma_chart_of(points(all), o).value();
  CHECK(series.baseline == 5);
  CHECK(series.steps.size() == 4);
  CHECK(series.steps[0].label == "coupon 6");
}

TEST_CASE("chart: what it says") {
  ChartOptions o = shrink_chart();
  const auto base = points({0.0035, 0.0036, 0.0034, 0.0035, 0.0035});
  Chart c = ewma_chart(base, {{"2026-10-02", 0.0036}, {"2026-10-20", 0.0052}, {"2026-11-20", 0.0054}}, o).value();
  REQUIRE(c.first_signal);
  CHECK(c.steps[*c.first_signal].label == "2026-10-20");
  CHECK(
      c.sentence.starts_with("Drift: the shrink factor is 0.07 % above the first 5, smoothed, first seen at "
                             "2026-10-20. Read the steel reference "
                             "first"));
  c = ewma_chart(base, {{"2026-10-20", 0.0015}, {"2026-11-01", 0.0035}, {"2026-11-20", 0.0035}, {"2026-11-21", 0.0039}},
                 o)
          .value();
  REQUIRE(c.first_signal);
  CHECK(c.sentence.find(
            "0.04 % below the first 5, smoothed, first seen at 2026-10-20; since then it has come back within "
            "the limits.") != std::string::npos);
  CHECK(ewma_chart(base, {}, o).value().sentence ==
        "The first 5 points are the baseline of the shrink factor; the next one is the first to be judged.");
  ChartOptions e = edge_chart();
  CHECK(ewma_chart(points({0.08, 0.08, 0.08}), points({0.08}), e).value().sentence.ends_with(" mm."));
}

TEST_CASE("chart: refuses, and says why") {
  Problems told = ewma_chart(points({1, 2}), points({3})).problems();
  REQUIRE(told.size() == 1);
  CHECK(told[0].code == Code::unanswerable);
  CHECK(told[0].what == "a control chart of the shrink factor needs a baseline of 3 points, there are 2");
  CHECK(ewma_chart({}, {}).problems()[0].what.ends_with("there are none"));
  CHECK(ewma_chart_of(points({1})).problems()[0].what.ends_with("there is one"));
  told = ewma_chart(points({1, std::nan(""), 2}), points({INFINITY})).problems();
  REQUIRE(told.size() == 2);
  CHECK(told[0].code == Code::bad_input);
  CHECK(told[0].what == "point \"coupon 2\" of the chart is not a number");
  ChartOptions o;
  o.lambda = 0;
  CHECK_THROWS_AS(ewma_chart(points({1, 2, 3}), {}, o), std::invalid_argument);
  o.lambda = 0.2;
  o.usual_sd = 0;
  CHECK_THROWS_AS(ewma_chart(points({1, 2, 3}), {}, o), std::invalid_argument);
}
