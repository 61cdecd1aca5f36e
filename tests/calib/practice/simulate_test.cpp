#include "practice/simulate.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "practice/stream.hpp"
#include "practice/true_size.hpp"
#include "reading/csv.hpp"

using namespace fitwright;

namespace {

Truth truth_of(const std::string& json) {
  const auto truth = parse_truth(json, "truth");
  if (!truth) FAIL(truth.problems().front().text());
  return *truth;
}

/// No scatter, no caliper error, sizes to a micrometre: what is left is the model.
Truth exact_truth(const std::string& features, const std::string& more = "") {
  return truth_of(R"({"noise":{"feature":0,"feature_copy":0,"copy_e":0,"copy_scale":0,"reading":0},
    "caliper":{"resolution":0,"jaw_flat":0},"copies":1,"repeats":1,)" +
                  more + R"("features":[)" + features + "]}");
}

double only_reading(const Truth& truth) {
  const ReadingSet set = simulate(truth, 1);
  REQUIRE(set.rows.size() == 1);
  return set.rows[0].reading_mm;
}

void check_same(const ReadingSet& a, const ReadingSet& b) {
  REQUIRE(a.rows.size() == b.rows.size());
  for (std::size_t i = 0; i < a.rows.size(); ++i) {
    const Reading &x = a.rows[i], &y = b.rows[i];
    INFO("row " << i << " " << x.feature.id);
    CHECK(x.feature.id == y.feature.id);
    CHECK(x.feature.kind == y.feature.kind);
    CHECK(x.feature.axis == y.feature.axis);
    CHECK(x.feature.nominal_mm == y.feature.nominal_mm);
    CHECK(x.feature.side_a_mm == y.feature.side_a_mm);
    CHECK(x.feature.side_b_mm == y.feature.side_b_mm);
    CHECK(x.feature.edge_a == y.feature.edge_a);
    CHECK(x.feature.edge_b == y.feature.edge_b);
    CHECK(x.copy == y.copy);
    CHECK(x.repeat == y.repeat);
    CHECK(x.reading_mm == y.reading_mm);
    CHECK(x.turned_deg == y.turned_deg);
    CHECK(x.step_mm == y.step_mm);
  }
}

}  // namespace

TEST_CASE("Sizes without scatter are those of the error model") {
  // Truth by default: s_x = -.0035, s_y = -.0015, s_z = -.001, e = .08, z0 = -.05, c0 = .06, c1 = .15.
  CHECK(only_reading(exact_truth(R"(["a","outer","x",40])")) == Approx(40 * 0.9965 + 0.16));
  CHECK(only_reading(exact_truth(R"(["a","inner","y",40])")) == Approx(40 * 0.9985 - 0.16));
  CHECK(only_reading(exact_truth(R"(["a","outer","z",40])")) == Approx(40 * 0.999 - 0.05));
  Truth off_zero = exact_truth(R"(["a","pitch","x",40])");
  off_zero.caliper_zero_mm = 0.5;  // a step reading is a difference: the zero is not in it
  CHECK(only_reading(off_zero) == Approx(40 * 0.9965));
  CHECK(only_reading(exact_truth(R"(["a","foot","x",20])", R"("flare":0.15,)")) == Approx(20 * 0.9965 + 0.16 + 0.3));
  CHECK(only_reading(exact_truth(R"(["a","hole","z",5])")) == Approx(5 * 0.9975 - 0.16 - 0.06 - 0.03).margin(5e-4));
  CHECK(only_reading(exact_truth(R"(["a","pin","z",5])")) == Approx(4.7));  // the largest shank in steps of 0.1
  CHECK(only_reading(exact_truth(R"(["a","wall","n",0.45])")) == Approx(0.462).margin(5e-4));
}

TEST_CASE("The hypotenuse is exact where the answer is") {
  for (int k = 1; k < 2000; ++k)
    CHECK(hypotenuse(0.001 * (3 * k), 0.001 * (4 * k)) == Approx(0.005 * k).epsilon(2e-16));
  CHECK(hypotenuse(3, 4) == 5);
  CHECK(hypotenuse(65, 72) == 97);
  CHECK(hypotenuse(0, 7.25) == 7.25);
}

TEST_CASE("Readings as values are those of the CSV text") {
  for (
      const std::string& json :
      {std::string("default"), std::string(R"({"turned":[0,90],"copies":2,"typo":{"rate":0.1}})"),
       std::string(
           R"({"pin_step":0.02,"features":[["a","pin","z",3.3],["b","diag+","xy",[60,60]]],"complete_columns":true})"),
       std::string(
           R"({"features":[["a","flats+","xy",[110,100,60]],["b","diag-","xy",[80,60]]],"complete_columns":true})"),
       std::string(
           R"({"features":[["a","outer","x",30,"l","r"],["b","diag-","xy",[80,60]],["c","zero","n",0]],"turned":[90]})")}) {
    INFO(json);
    const Truth truth = truth_of(json);
    const auto read = parse_readings(simulate_csv(truth, 5), "x.csv");
    if (!read) FAIL(read.problems().front().text());
    check_same(simulate(truth, 5), *read);
  }
}

TEST_CASE("What a reader would assume wrongly is left out unless asked for, and that can be asked") {
  const std::string rectangle = R"("features":[["a","diag+","xy",[80,60]]])",
                    square = R"("features":[["a","diag+","xy",[80,80]]])";
  CHECK(csv_is_incomplete(truth_of("{" + rectangle + "}")));
  CHECK_FALSE(csv_is_incomplete(truth_of("{" + square + "}")));
  CHECK_FALSE(csv_is_incomplete(truth_of(R"({"complete_columns":true,)" + rectangle + "}")));
  CHECK(simulate_csv(truth_of("{" + rectangle + "}"), 1)
            .starts_with("feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\n"));
  CHECK(simulate_csv(truth_of(R"({"complete_columns":true,)" + rectangle + "}"), 1)
            .starts_with(
                "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm,side_a_mm,side_b_mm\na,diag+,xy,100,1,1,"));
  CHECK(csv_is_incomplete(truth_of(R"({"pin_step":0.05,"features":[["a","pin","z",3]]})")));
  CHECK_FALSE(csv_is_incomplete(truth_of(R"({"pin_step":0.05})")));
}

TEST_CASE("Another feature, copy or repeat changes no other reading") {
  const Truth small = truth_of(R"({"copies":1,"repeats":1,"features":[["X40","outer","x",40]]})");
  const Truth large = truth_of(R"({"copies":3,"repeats":4,"features":[["H5","hole","z",5],["X40","outer","x",40]]})");
  const double alone = only_reading(small);
  for (const Reading& r : simulate(large, 1).rows)
    if (r.feature.id == "X40" && r.copy == 1 && r.repeat == 1) CHECK(r.reading_mm == alone);
}

TEST_CASE("Features that share faces share their effects") {
  const std::string only_features = R"("noise":{"feature_copy":0,"copy_e":0,"copy_scale":0,"reading":0},
    "caliper":{"resolution":0,"jaw_flat":0},"scale":{"x":0,"y":0,"z":0},"e":0,"copies":1,"repeats":1,)";
  const Truth chain = truth_of("{" + only_features + R"("features":[["B1","outer","x",10,"a","b"],
    ["S","inner","x",20,"b","c"],["B2","outer","x",10,"c","d"],["A","outer","x",40,"a","d"]]})");
  const double half_um = 5e-4 + 1e-9;  // readings are rounded to a micrometre
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    const auto rows = simulate(chain, seed).rows;
    const auto delta = [&](const char* edge) {
      return 0.03 / std::sqrt(2.0) * stream_normal(seed, std::string("EDGE|") + edge);
    };
    CHECK(std::abs(rows[0].reading_mm - 10 - delta("a") - delta("b")) < half_um);
    CHECK(std::abs(rows[1].reading_mm - 20 + delta("b") + delta("c")) < half_um);
    // block + slot + block is the outer over all: the scatter of the shared faces cancels
    CHECK(std::abs(rows[0].reading_mm + rows[1].reading_mm + rows[2].reading_mm - rows[3].reading_mm) < 4 * half_um);
  }
}

TEST_CASE("A feature made of two faces scatters as much as one with an effect of its own") {
  const Truth truth = truth_of(R"({"noise":{"feature_copy":0,"copy_e":0,"copy_scale":0,"reading":0},
    "caliper":{"resolution":0},"scale":{"x":0},"e":0,"copies":1,"repeats":1,"features":[["B","outer","x",10,"a","b"]]})");
  const int n = 4000;
  double squares = 0;
  for (int seed = 0; seed < n; ++seed)
    squares += std::pow(simulate(truth, static_cast<std::uint64_t>(seed)).rows[0].reading_mm - 10, 2);
  // variance of a variance: 2 sd^4 / n; four standard errors
  CHECK(std::abs(squares / n / (0.03 * 0.03) - 1) < 4 * std::sqrt(2.0 / n));
}
