// The readings file that goes with a coupon: made empty, filled in little by little.

#include <catch2/catch.hpp>
#include <cmath>
#include <sstream>
#include <vector>

#include "fitw.hpp"
#include "json_keys.hpp"

namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

std::vector<std::string> fields_of(const std::string& line) {
  std::vector<std::string> fields(1);
  for (const char c : line)
    if (c == ',')
      fields.emplace_back();
    else
      fields.back() += c;
  return fields;
}

/// The template with a reading typed into every row of repeat 1: a zero of 0.01 mm, edges that stand out by 0.02 mm.
std::string half_filled(const std::string& csv) {
  std::string out;
  for (const std::string& line : lines_of(csv)) {
    std::vector<std::string> f = fields_of(line);
    if (f.size() > 6 && f[5] == "1")
      f[6] = std::to_string(std::stod(f[3]) + 0.01 + (f[1] == "inner" ? -0.04 : f[1] == "zero" ? 0 : 0.04));
    for (std::size_t i = 0; i < f.size(); ++i) out += (i ? "," : "") + f[i];
    out += '\n';
  }
  return out;
}

}  // namespace

TEST_CASE("make writes a row for each reading, and none of them is read") {
  const Bench bench;
  REQUIRE(bench.fitw({"make", "frame", "--out", "a"}).code == 0);
  const std::string csv = bench.read("a/frame.readings.csv");
  const auto lines = lines_of(csv);
  CHECK(lines[0].starts_with("feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm"));
  CHECK(lines[1].starts_with("Z0,zero,n,0,1,1,,"));
  const Json doc = Json::parse(bench.fitw({"coupons", "--json"}).out);
  for (const Json& coupon : doc["coupons"])
    if (coupon["name"] == "frame") CHECK(lines.size() == 1 + 2 + 2 * coupon["features"].size());

  const Run none = bench.fitw({"estimate", "a/frame.readings.csv"});
  CHECK(none.code == 4);
  CHECK(none.out.empty());
  CHECK(none.err.find("a/frame.readings.csv: no reading has been typed") != std::string::npos);

  const Run made = bench.fitw({"make", "bores", "--out", "b", "--copies", "2", "--repeats", "3"});
  REQUIRE(made.code == 0);
  const std::string bores = bench.read("b/bores.readings.csv");
  CHECK(bores.find(",2,3,,90,") != std::string::npos);  // copy 2, third time, lay turned
  CHECK(bores.find(", along Y\"") != std::string::npos);
  CHECK(bench.fitw({"make", "bores", "--out", "b", "--copies", "0"}).code == 2);
}

TEST_CASE("a half-filled file is worked with, and the rows passed over are told") {
  const Bench bench;
  REQUIRE(bench.fitw({"make", "frame", "--out", "a"}).code == 0);
  bench.write("half.csv", half_filled(bench.read("a/frame.readings.csv")));
  const Run run = bench.fitw({"estimate", "half.csv", "--json"});
  INFO(run.err);
  REQUIRE(run.code == 0);
  const auto places = (lines_of(bench.read("half.csv")).size() - 1) / 2;
  CHECK(run.err.find("half.csv: " + std::to_string(places) + " of " + std::to_string(2 * places) +
                     " rows have no reading yet and are passed over: lines 3, 5, 7") != std::string::npos);
  const Json doc = Json::parse(run.out);
  CHECK(doc["counts"]["readings"] == places);
  for (const Json& p : doc["parameters"]) {
    if (p["name"] == "scale_x") CHECK(std::abs(p["value"].get<double>()) < 1e-9);
    if (p["name"] == "edge_growth_mm") CHECK(p["value"].get<double>() == Approx(0.02).epsilon(1e-6));
  }

  bench.write("s.json", "{}");
  CHECK(bench.fitw({"correct", "half.csv", "--state", "s.json", "--policy", "shrink"}).code == 0);
}

TEST_CASE("what is typed wrong in a half-filled file is told as ever") {
  const Bench bench;
  bench.write("r.csv",
              "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\n"
              "X40,outer,x,40,1,1,\nX40,outer,x,40,1,2,4o.05\n");
  const Run run = bench.fitw({"estimate", "r.csv"});
  CHECK(run.code == 3);
  CHECK(run.err.find("r.csv:3:20:") != std::string::npos);
}
