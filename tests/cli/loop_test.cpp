// The whole way: readings of a printer whose truth is known, estimates, corrections.

#include <catch2/catch.hpp>
#include <cmath>
#include <map>

#include "fitw.hpp"
#include "json_keys.hpp"

namespace {

Json parameter(const Json& doc, const std::string& name) {
  for (const Json& p : doc["parameters"])
    if (p["name"] == name) return p;
  return {};
}

}  // namespace

TEST_CASE("readings of the practice printer are the same bytes for the same seed") {
  const Bench bench;
  REQUIRE(bench.fitw({"simulate", "default", "--seed", "1", "--out", "a.csv"}).code == 0);
  REQUIRE(bench.fitw({"simulate", "default", "--seed", "1", "--out", "b.csv"}).code == 0);
  REQUIRE(bench.fitw({"simulate", "default", "--seed", "2", "--out", "c.csv"}).code == 0);
  CHECK(bench.read("a.csv").starts_with("feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\n"));
  CHECK(bench.read("a.csv") == bench.read("b.csv"));
  CHECK(bench.read("a.csv") != bench.read("c.csv"));
}

TEST_CASE("simulate, estimate: the truth comes back within what was promised") {
  // Truth of the practice printer by default; five standard uncertainties, so that a right program fails once in a
  // million.
  const std::map<std::string, double> truth{
      {"scale_x", -0.0035}, {"scale_y", -0.0015}, {"edge_growth_mm", 0.08}, {"skew_xy_rad", 0.002}};
  const Bench bench;
  REQUIRE(bench.fitw({"simulate", "default", "--seed", "1", "--out", "r.csv"}).code == 0);
  const Run run = bench.fitw({"estimate", "r.csv", "--json"});
  INFO(run.err);
  REQUIRE(run.code == 0);
  const Json doc = Json::parse(run.out);  // throws when anything else stands there
  CHECK(keys(doc) == Names{"schema", "method", "counts", "parameters", "combinations", "covariance", "priors",
                           "not_separable", "suspects", "scatter", "beyond_readings", "findings"});
  CHECK(doc["counts"]["copies"] == 3);
  for (const auto& [name, value] : truth) {
    INFO(name);
    const Json p = parameter(doc, name);
    REQUIRE_FALSE(p.is_null());
    CHECK(std::abs(p["value"].get<double>() - value) < 5 * p["u"].get<double>());
    CHECK(p["lower"].get<double>() < p["value"].get<double>());
    CHECK(p["value"].get<double>() < p["upper"].get<double>());
  }
  // Variances on the diagonal are those of the table.
  const auto& names = doc["covariance"]["names"];
  REQUIRE(names.size() == doc["parameters"].size());
  for (std::size_t i = 0; i < names.size(); ++i) {
    CHECK(names[i] == doc["parameters"][i]["name"]);
    const double u = doc["parameters"][i]["u"];
    CHECK(doc["covariance"]["matrix"][i][i].get<double>() == Approx(u * u));
  }
  CHECK(doc["findings"].size() > 0);
  CHECK(bench.fitw({"estimate", "r.csv", "--json"}).out == run.out);
}

TEST_CASE("estimates as text are for people, and the same each time") {
  const Bench bench;
  REQUIRE(bench.fitw({"simulate", "default", "--seed", "1", "--out", "r.csv"}).code == 0);
  const Run run = bench.fitw({"estimate", "r.csv"});
  REQUIRE(run.code == 0);
  CHECK(run.out.starts_with("r.csv: "));
  CHECK(run.out.find("scale along X") != std::string::npos);
  CHECK(run.out.find("What it means") != std::string::npos);
  CHECK(run.out.find('{') == std::string::npos);
  CHECK(bench.fitw({"estimate", "r.csv"}).out == run.out);
}

TEST_CASE("a slip is told on standard error by its line, set aside or kept as asked") {
  const Bench bench;
  REQUIRE(bench.fitw({"simulate", "default", "--seed", "1", "--out", "r.csv"}).code == 0);
  std::string csv = bench.read("r.csv");
  const std::string row = "X10,outer,x,10,1,2,";
  const std::size_t start = csv.find(row);
  REQUIRE(start != std::string::npos);
  const std::size_t end = csv.find('\n', start);
  csv.replace(start, end - start, row + "100.70");  // 10.07 with its point shifted
  bench.write("slip.csv", csv);

  const Run aside = bench.fitw({"estimate", "slip.csv", "--json"});
  INFO(aside.err);
  REQUIRE(aside.code == 0);
  CHECK(aside.err.find("slip.csv:3: ") != std::string::npos);
  CHECK(aside.err.find("set aside") != std::string::npos);
  const Json doc = Json::parse(aside.out);
  CHECK(doc["counts"]["set_aside"] == 1);
  REQUIRE(doc["suspects"].size() >= 1);
  const Json suspect = doc["suspects"][0];
  CHECK(keys(suspect) == Names{"row", "feature_id", "copy", "repeat", "reading_mm", "rule", "proposal_mm", "used"});
  CHECK(suspect["row"] == 3);
  CHECK(suspect["feature_id"] == "X10");
  CHECK(suspect["reading_mm"] == 100.7);
  CHECK(suspect["rule"] == "entry");
  CHECK(suspect["proposal_mm"].get<double>() == Approx(10.07));
  CHECK(suspect["used"] == false);

  const Run kept = bench.fitw({"estimate", "slip.csv", "--json", "--suspects", "keep"});
  REQUIRE(kept.code == 0);
  const Json all = Json::parse(kept.out);
  CHECK(all["counts"]["set_aside"] == 0);
  CHECK(all["suspects"][0]["used"] == true);
}

TEST_CASE("without priors none is listed") {
  const Bench bench;
  REQUIRE(bench.fitw({"simulate", "default", "--seed", "1", "--out", "r.csv"}).code == 0);
  const Run run = bench.fitw({"estimate", "r.csv", "--json", "--no-priors"});
  INFO(run.err);
  REQUIRE(run.code == 0);
  const Json doc = Json::parse(run.out);
  CHECK(doc["priors"].empty());
  for (const Json& p : doc["parameters"]) CHECK(p["prior"] == false);
}

TEST_CASE("simulate, estimate, correct: what is proposed undoes what is true") {
  const Bench bench;
  REQUIRE(bench.fitw({"simulate", "default", "--seed", "1", "--out", "r.csv"}).code == 0);
  bench.write("s.json", "{\"steps_per_mm\": {\"x\": 80, \"y\": 80, \"z\": 400, \"e\": 93}}");
  for (const char* policy : {"shrink", "steps", "shrink-only"}) {
    const Run run = bench.fitw(
        {"correct", "r.csv", "--state", "s.json", "--policy", policy, "--json", "--travel", "x=150:150,y=150:150"});
    INFO(policy << "\n" << run.err);
    REQUIRE(run.code == 0);
    const Json doc = Json::parse(run.out);
    CHECK(keys(doc) == Names{"schema", "policy", "before", "after", "changes", "left_alone", "remains_mm", "invariant",
                             "cautions", "commands"});
    CHECK(doc["policy"] == policy);
    CHECK(doc["before"]["size_factor"] == 1.0);
    // Printed per drawn millimetre, geometric mean of X and Y, with the true scales: within 0.2 % of 1 (u is about 0.05
    // %).
    const double steps_x = doc["after"]["steps_per_mm"]["x"].get<double>() / 80;
    const double steps_y = doc["after"]["steps_per_mm"]["y"].get<double>() / 80;
    const double factor = doc["after"]["size_factor"];
    CHECK(factor * std::sqrt(steps_x * steps_y * (1 - 0.0035) * (1 - 0.0015)) == Approx(1).margin(0.002));
    for (const Json& change : doc["changes"])
      CHECK(keys(change) == Names{"knob", "old", "new", "u", "established", "because", "effect_mm"});
    CHECK(bench
              .fitw({"correct", "r.csv", "--state", "s.json", "--policy", policy, "--json", "--travel",
                     "x=150:150,y=150:150"})
              .out == run.out);

    const Run text = bench.fitw({"correct", "r.csv", "--state", "s.json", "--policy", policy});
    INFO(text.err);
    if (text.code == 0) CHECK(text.out.find("Policy " + std::string(policy)) != std::string::npos);
  }
}

TEST_CASE("steps by motor, belt and screw are told beside those in force") {
  const Bench bench;
  REQUIRE(bench.fitw({"simulate", "default", "--seed", "1", "--out", "r.csv"}).code == 0);
  bench.write("s.json", "{\"steps_per_mm\": {\"x\": 80.4}}");
  const Run run = bench.fitw({"correct", "r.csv", "--state", "s.json", "--policy", "shrink", "--drive",
                              "x=steps:200,microsteps:16,pitch:2,teeth:20", "z=lead:8", "--json"});
  INFO(run.err);
  REQUIRE(run.code == 0);
  // 200 x 16 / (20 x 2 mm) = 80 and 200 x 16 / 8 mm = 400 steps per mm.
  CHECK(run.err.find("steps per mm, X: by motor and drive 80.00, in force 80.40") != std::string::npos);
  CHECK(run.err.find("steps per mm, Z: by motor and drive 400.00, in force 400.00") != std::string::npos);
  CHECK_NOTHROW(Json::parse(run.out));
}

TEST_CASE("new steps come with the caution and both conventions") {
  const Bench bench;
  REQUIRE(bench.fitw({"simulate", "default", "--seed", "1", "--out", "r.csv"}).code == 0);
  bench.write("s.json", "{}");
  const Run run = bench.fitw(
      {"correct", "r.csv", "--state", "s.json", "--policy", "machine", "--travel", "x=150:150.45,y=150:149.70"});
  INFO(run.err << run.out);
  REQUIRE(run.code == 0);
  const std::size_t caution = run.out.find("power switch");
  const std::size_t command = run.out.find("\n  M92 ");
  REQUIRE(caution != std::string::npos);
  REQUIRE(command != std::string::npos);
  CHECK(caution < command);
}
