// fitw ladder, allowance, next and tolerance: documents of docs/formats.md, wrong usage, bad files.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "fitw.hpp"

namespace {

using nlohmann::json;

/// Fifteen places; thresholds by an independent optimiser (see tests/calib/fits/thresholds_test.cpp).
constexpr const char* trials =
    "clearance_mm,grade,copy\n-0.1,0,1\n-0.1,0,2\n0,1,1\n0,0,2\n0.05,1,1\n0.1,1,1\n0.1,2,2\n0.15,2,1\n0.2,3,1\n"
    "0.2,2,2\n0.25,3,1\n0.3,3,1\n0.35,4,1\n0.4,4,1\n0.4,4,2\n";

void estimate_into(const Bench& bench) {
  REQUIRE(bench.fitw({"simulate", "default", "--seed", "1", "--out", "r.csv"}).code == 0);
  const Run run = bench.fitw({"estimate", "r.csv", "--json"});
  REQUIRE(run.code == 0);
  bench.write("e.json", run.out);
}

}  // namespace

TEST_CASE("fitw tolerance: a fit, one class, a general tolerance") {
  const Bench bench;
  const auto fit = json::parse(bench.fitw({"tolerance", "25 H7/g6", "--json"}).out);
  CHECK(fit["schema"] == 1);
  CHECK(fit["nominal_mm"] == 25);
  CHECK(fit["hole"] == json{{"class", "H7"}, {"upper_um", 21}, {"lower_um", 0}});
  CHECK(fit["shaft"] == json{{"class", "g6"}, {"upper_um", -7}, {"lower_um", -20}});
  CHECK(fit["clearance_max_um"] == 41);
  CHECK(fit["clearance_min_um"] == 7);
  CHECK(fit["fit"] == "clearance");
  const auto one = json::parse(bench.fitw({"tolerance", "25 H7", "--json"}).out);
  CHECK((one.contains("hole") && !one.contains("shaft") && !one.contains("fit")));
  CHECK(json::parse(bench.fitw({"tolerance", "40 m", "--json"}).out)["general"]["upper_um"] == 300);
  CHECK(bench.fitw({"tolerance", "25 H7/g6"}).out.find("Clearance fit: 0.007 to 0.041 mm") != std::string::npos);
  CHECK(bench.fitw({"tolerance", "25 H7/y6"}).code == 2);
  CHECK(bench.fitw({"tolerance"}).code == 2);
}

TEST_CASE("fitw ladder: thresholds, best clearances, what to print next") {
  const Bench bench;
  bench.write("t.csv", trials);
  const auto out = json::parse(bench.fitw({"ladder", "t.csv", "--json"}).out);
  const double expected[] = {-0.002315058, 0.09991802, 0.20080012, 0.3237233};
  for (std::size_t k = 0; k < 4; ++k) {
    CHECK(out["thresholds_mm"][k]["between"] == json{k, k + 1});
    CHECK(out["thresholds_mm"][k]["value"].get<double>() == Approx(expected[k]).margin(1e-6));
    CHECK(out["thresholds_mm"][k]["lower"].get<double>() < expected[k]);
  }
  CHECK(out["scatter_mm"]["value"].get<double>() == Approx(0.027908543).margin(1e-6));
  CHECK(out["neg_log_posterior"].get<double>() == Approx(5.1981145).margin(1e-6));
  CHECK(out["used"] == "nominal");
  for (const char* fit : {"press", "snug", "sliding", "loose"}) {
    CHECK(out["best_clearance_mm"].contains(fit));
    CHECK(out["chance_there"][fit].get<double>() > 0.5);
  }
  CHECK(out["contradictions"].size() == 3);
  CHECK(
      json::parse(bench.fitw({"ladder", "t.csv", "--json", "--next", "sliding"}).out)["next"]["clearance_mm"].size() ==
      7);
  const Run text = bench.fitw({"ladder", "t.csv", "--next", "sliding"});
  CHECK(text.out.find("Not all trials agree") != std::string::npos);
  CHECK(text.out.find("Print next") != std::string::npos);
  CHECK(bench.fitw({"ladder", "t.csv", "--use", "measured"}).code == 4);
  CHECK(bench.fitw({"ladder", "t.csv", "--use", "both"}).code == 2);
  CHECK(bench.fitw({"ladder", "none.csv"}).code == 5);
  bench.write("bad.csv", "clearance_mm,grade,copy\n0.1,7,1\nx,2,1\n");
  const Run bad = bench.fitw({"ladder", "bad.csv"});
  CHECK(bad.code == 3);
  CHECK(bad.out.empty());
  CHECK(bad.err.find("bad.csv:2:5: grade \"7\" is none of 0 to 4") != std::string::npos);
  CHECK(bad.err.find("bad.csv:3:1: clearance_mm \"x\"") != std::string::npos);
}

TEST_CASE("fitw allowance: what to draw, for hardware, an own part, a printed part") {
  const Bench bench;
  estimate_into(bench);
  bench.write("t.csv", trials);
  const auto ask = [&](std::vector<std::string> more) {
    std::vector<std::string> words{"allowance", "--from", "e.json", "--json", "--kind", "hole"};
    words.insert(words.end(), more.begin(), more.end());
    const Run run = bench.fitw(words);
    INFO(run.err);
    REQUIRE(run.code == 0);
    return json::parse(run.out);
  };
  const auto bearing = ask({"--nominal", "22", "--fit", "press", "--part", "bearing 608"});
  CHECK(bearing["draw_mm"].get<double>() > 22);
  CHECK(bearing["thresholds"] == "assumed");
  CHECK(bearing["cautions"].size() == 2);
  CHECK(bearing["reached"] == false);
  const auto own = ask({"--nominal", "8", "--fit", "loose", "--mate", "7.98", "--measured", "--trials", "t.csv"});
  CHECK(own["chance"].get<double>() == Approx(0.9).margin(0.005));
  CHECK(own["thresholds"] == "trials");
  const auto pair = ask({"--nominal", "8", "--fit", "sliding", "--mate", "printed", "--trials", "t.csv"});
  // A ladder of this size in drawn clearances: hole minus peg as drawn lies between the thresholds of sliding.
  const double clearance = pair["draw_mm"].get<double>() - pair["mate_draw_mm"].get<double>();
  CHECK(clearance > 0.2);
  CHECK(clearance < 0.33);
  const auto looser = ask({"--nominal", "8", "--fit", "loose", "--chance", "0.99"});
  CHECK(looser["draw_mm"].get<double>() > own["draw_mm"].get<double>());
  CHECK(looser["chance"].get<double>() == Approx(0.99).margin(0.002));
}

TEST_CASE("fitw allowance and next: mistakes") {
  const Bench bench;
  estimate_into(bench);
  const Run none = bench.fitw({"allowance"});
  CHECK(none.code == 2);
  for (const char* told : {"--kind is missing", "--nominal is missing", "--fit is missing", "--from is missing"})
    CHECK(none.err.find(told) != std::string::npos);
  const auto base = [&](std::vector<std::string> more) {
    std::vector<std::string> words{"allowance", "--kind", "hole", "--nominal", "8", "--fit", "snug"};
    words.insert(words.end(), more.begin(), more.end());
    return bench.fitw(words);
  };
  CHECK(base({"--from", "none.json"}).code == 5);
  CHECK(base({"--from", "e.json", "--part", "unobtainable"}).code == 2);
  CHECK(base({"--from", "e.json", "--part", "bearing 608", "--mate", "8"}).code == 2);
  CHECK(base({"--from", "e.json", "--measured"}).code == 2);
  CHECK(base({"--from", "e.json", "--chance", "1.5"}).code == 2);
  CHECK(base({"--from", "e.json", "--now", "s.json"}).code == 2);
  bench.write("no.json", "{\"parameters\":[{\"value\":1}],\"covariance\":{\"names\":[],\"matrix\":[]}}");
  const Run no = base({"--from", "no.json"});
  CHECK(no.code == 3);
  CHECK(no.err.find("no.json:1:16: a parameter without a name") != std::string::npos);
  bench.write("broken.json", "{");
  CHECK(base({"--from", "broken.json"}).code == 3);
  CHECK(bench.fitw({"next"}).code == 2);
  CHECK(bench.fitw({"next", "--goal", "hole sliding"}).code == 2);
}

TEST_CASE("fitw next: gains by coupon, best first") {
  const Bench bench;
  estimate_into(bench);
  const auto now = json::parse(bench.fitw({"next", "--goal", "hole 8 sliding", "--from", "e.json", "--json"}).out);
  const auto before = json::parse(bench.fitw({"next", "--goal", "hole 8 sliding", "--json"}).out);
  CHECK(before["half_width_now_mm"].get<double>() > now["half_width_now_mm"].get<double>());
  CHECK(before["stop"] == false);
  double last = 1e9;
  for (const auto& gain : before["gains"]) {
    CHECK(gain["gain_mm_per_g"].get<double>() <= last);
    last = gain["gain_mm_per_g"].get<double>();
    CHECK(gain["grams"].get<double>() > 0);
  }
  CHECK(before["gains"].size() >= 4);
}
