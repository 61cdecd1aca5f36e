// The weighed block on the command line: --block-g and what goes with it.

#include <catch2/catch.hpp>
#include <cmath>

#include "fitw.hpp"
#include "json_keys.hpp"

namespace {

/// Flow after a correction by a block; readings by the practice printer, settings as they come from the shop.
Json after_block(const Bench& bench, const std::vector<std::string>& block) {
  std::vector<std::string> words{"correct", "r.csv", "--state", "s.json", "--policy", "shrink", "--json"};
  words.insert(words.end(), block.begin(), block.end());
  const Run run = bench.fitw(words);
  INFO(run.err);
  REQUIRE(run.code == 0);
  return Json::parse(run.out);
}

}  // namespace

TEST_CASE("flow by a weighed block: volume and density given, and the block of the walls design otherwise") {
  const Bench bench;
  // No wall among the readings: they would tell flow too.
  bench.write("t.json",
              R"({"features": [["X10","outer","x",10],["X100","outer","x",100],["Y10","outer","y",10],)"
              R"(["Y100","outer","y",100],["SX10","inner","x",10],["SX40","inner","x",40],["SY10","inner","y",10],)"
              R"(["SY40","inner","y",40]]})");
  REQUIRE(bench.fitw({"simulate", "t.json", "--seed", "3", "--out", "r.csv"}).code == 0);
  bench.write("s.json", R"({"flow": 0.95})");

  // 10 cm3 at 1.2 g/cm3 ask for 12 g; 12.6 g are 5 % more.
  const Json doc = after_block(
      bench, {"--block-g", "12.6", "--block-cm3", "10", "--block-density", "1.2", "--block-density-u", "0.006"});
  CHECK(doc["after"]["flow"].get<double>() == Approx(0.95 / 1.05));
  bool cautioned = false;
  for (const Json& caution : doc["cautions"])
    cautioned = cautioned || caution.get<std::string>().find("printed solid") != std::string::npos;
  CHECK(cautioned);
  const Json u = [&] {
    for (const Json& c : doc["changes"])
      if (c["knob"] == "flow") return c["u"];
    return Json();
  }();
  // Density 0.5 %, scale 0.029 g of 12.6 g.
  CHECK(u.get<double>() == Approx(0.95 / 1.05 * std::hypot(0.005, 0.029 / 12.6)).epsilon(1e-6));

  // The drawn block: 30 x 30 mm and 46 layers of 0.2 mm, less the engraved names: a little under 8.28 cm3, 10.27 g.
  const Json ours = after_block(bench, {"--block-g", "11"});
  const double ratio = 0.95 / ours["after"]["flow"].get<double>();
  CHECK(ratio == Approx(11 / 10.27).epsilon(0.005));
  CHECK(ratio > 11 / 10.27);

  const Run text = bench.fitw({"estimate", "r.csv", "--block-g", "11"});
  REQUIRE(text.code == 0);
  CHECK(text.out.find("The weighed block holds") != std::string::npos);
}

TEST_CASE("mistakes with the weighed block are told") {
  const Bench bench;
  REQUIRE(bench.fitw({"simulate", "default", "--seed", "1", "--out", "r.csv"}).code == 0);
  bench.write("s.json", "{}");
  for (const auto& [words, piece] : std::vector<std::pair<std::vector<std::string>, std::string>>{
           {{"--block-cm3", "8"}, "--block-cm3 is given without --block-g"},
           {{"--block-density", "1.2"}, "--block-density is given without --block-g"},
           {{"--block-g", "-3"}, "--block-g"},
           {{"--block-g", "10", "--block-density", "heavy"}, "\"heavy\" is not a number"}}) {
    std::vector<std::string> all{"correct", "r.csv", "--state", "s.json", "--policy", "shrink"};
    all.insert(all.end(), words.begin(), words.end());
    const Run run = bench.fitw(all);
    INFO(run.err);
    CHECK(run.code == 2);
    CHECK(run.out.empty());
    CHECK(run.err.find(piece) != std::string::npos);
  }
}
