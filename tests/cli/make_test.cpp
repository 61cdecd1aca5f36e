// Coupons and their files.

#include <algorithm>
#include <catch2/catch.hpp>

#include "fitw.hpp"
#include "json_keys.hpp"

TEST_CASE("coupons as JSON: documented keys, and each can be made as it is") {
  const Bench bench;
  const Run run = bench.fitw({"coupons", "--json"});
  REQUIRE(run.code == 0);
  CHECK(run.err.empty());
  const Json doc = Json::parse(run.out);
  CHECK(keys(doc) == Names{"schema", "coupons"});
  CHECK(doc["schema"] == 1);
  REQUIRE(doc["coupons"].size() >= 1);
  const std::string text = bench.fitw({"coupons"}).out;
  for (const Json& coupon : doc["coupons"]) {
    const std::string name = coupon["name"];
    INFO(name);
    CHECK(keys(coupon) == Names{"name", "question", "size_mm", "grams", "layers", "parameters", "features"});
    CHECK(coupon["size_mm"].size() == 3);
    CHECK(coupon["grams"].get<double>() > 0);
    CHECK(coupon["grams"].get<double>() <= 15);
    CHECK(coupon["layers"].get<int>() > 0);
    for (const Json& p : coupon["parameters"]) {
      CHECK(keys(p) == Names{"name", "default", "min", "max", "unit"});
      CHECK(p["min"].get<double>() <= p["default"].get<double>());
      CHECK(p["default"].get<double>() <= p["max"].get<double>());
    }
    CHECK(coupon["features"].size() > 0);
    CHECK(text.find(name + ": ") != std::string::npos);

    const Run made = bench.fitw({"make", name, "--out", name});
    INFO(made.err);
    CHECK(made.code == 0);
    CHECK(bench.has(name + '/' + name + ".stl"));
    CHECK(bench.has(name + '/' + name + ".features.csv"));
    CHECK(bench.has(name + '/' + name + ".svg"));
    CHECK(bench.has(name + '/' + name + ".readings.csv"));
    for (const char* told : {"size", "volume", "mm³", " g", "triangles"})
      CHECK(made.out.find(told) != std::string::npos);
    // One row a feature, under the documented header.
    const std::string features = bench.read(name + '/' + name + ".features.csv");
    CHECK(features.starts_with("feature_id,kind,axis,nominal_mm,side_a_mm,side_b_mm,facets,edge_a,edge_b,label\n"));
    CHECK(static_cast<std::size_t>(std::count(features.begin(), features.end(), '\n')) ==
          coupon["features"].size() + 1);
  }
}

TEST_CASE("the same coupon gives the same bytes, and replaces what stood there") {
  const Bench bench;
  REQUIRE(bench.fitw({"make", "frame", "--out", "a"}).code == 0);
  REQUIRE(bench.fitw({"make", "frame", "--out", "b/"}).code == 0);
  for (const char* name : {"/frame.stl", "/frame.features.csv", "/frame.svg", "/frame.readings.csv"})
    CHECK(bench.read(std::string("a") + name) == bench.read(std::string("b") + name));
  const auto before = bench.names();
  REQUIRE(bench.fitw({"make", "frame", "--out", "a", "--set", "side_mm=90"}).code == 0);
  CHECK(bench.names() == before);  // nothing left over
  CHECK(bench.read("a/frame.stl") != bench.read("b/frame.stl"));
}

TEST_CASE("3MF is a zip container") {
  const Bench bench;
  REQUIRE(bench.fitw({"make", "frame", "--out", "a", "--format", "3mf"}).code == 0);
  CHECK(bench.read("a/frame.3mf").starts_with("PK\x03\x04"));  // PKWARE APPNOTE 4.3.7, local file header
  CHECK_FALSE(bench.has("a/frame.stl"));
}

TEST_CASE("a measuring sheet is a PDF, the same each time") {
  const Bench bench;
  const Run run = bench.fitw({"sheet", "frame", "--out", "a.pdf"});
  INFO(run.err);
  REQUIRE(run.code == 0);
  CHECK(bench.read("a.pdf").starts_with("%PDF-"));
  REQUIRE(bench.fitw({"sheet", "frame", "--out", "b.pdf"}).code == 0);
  CHECK(bench.read("a.pdf") == bench.read("b.pdf"));
}

TEST_CASE("coupons whose places are tried come with a file for the trials, and say how and with what care") {
  const Bench bench;
  const Run rail = bench.fitw({"make", "rail", "--out", "a", "--copies", "2", "--set", "count=3"});
  REQUIRE(rail.code == 0);
  const std::string trials = bench.read("a/rail.trials.csv");
  CHECK(trials.starts_with("clearance_mm,grade,copy,measured_clearance_mm,diameter_mm\n-0.1,,1,,8\n"));
  CHECK(std::count(trials.begin(), trials.end(), '\n') == 1 + 2 * 2 * 3);
  for (const char* told : {"rail.trials.csv", "Before trying", "Eye protection", "3 slides"})
    CHECK(rail.out.find(told) != std::string::npos);
  REQUIRE(bench.fitw({"make", "frame", "--out", "b"}).code == 0);
  CHECK_FALSE(bench.has("b/frame.trials.csv"));
}

TEST_CASE("pockets are made for hardware by its name") {
  const Bench bench;
  const Run bearing = bench.fitw({"make", "pockets", "--part", "bearing 608", "--out", "a", "--set", "count=4"});
  INFO(bearing.err);
  REQUIRE(bearing.code == 0);
  CHECK(bearing.out.find("For bearing 608: ") != std::string::npos);
  CHECK(bench.read("a/pockets.features.csv").find("K0.00,hole,z,22,") != std::string::npos);
  CHECK(bearing.out.find("swallowed") == std::string::npos);
  const Run nut = bench.fitw({"make", "pockets", "--part", "M4 nut", "--out", "b"});
  REQUIRE(nut.code == 0);
  CHECK(bench.read("b/pockets.features.csv").find("K0.00,inner,x,7,") != std::string::npos);  // ISO 4032: 7 mm
  CHECK(bench.fitw({"make", "pockets", "--part", "magnet 6x3", "--out", "c"}).out.find("swallowed") !=
        std::string::npos);
  CHECK(bench.fitw({"make", "pockets", "--part", "flying carpet", "--out", "d"}).code == 2);
  CHECK(bench.fitw({"make", "rail", "--part", "bearing 608", "--out", "d"}).code == 2);
  CHECK(bench.fitw({"make", "pockets", "--part", "M4 nut", "--set", "size_mm=7", "--out", "d"}).code == 2);
}
