// The practice printer's readings, byte for byte, against an independent implementation in another language.
// Where the sums come from: tests/reference/practice/README.md.
#include <catch2/catch.hpp>
#include <string>

#include "base/file.hpp"
#include "md5.hpp"
#include "practice/simulate.hpp"

using namespace fitwright;

namespace {

struct Golden {
  std::string name, truth;
  std::uint64_t seed;
  std::string md5_of_csv;
};

// clang-format off
const Golden golden[] = {
    {"default", "default", 1u, "43a7e2e28dbaaaea77c458b7c95a7c7a"},
    {"default", "default", 18446744073709551615u, "ec98b7593751431d37734678fb20dd3a"},
    {"all kinds, turned", R"({"copies":2,"turned":[0,90],"repeats":2,"flare":0.12,"peg":{"p0":0.1,"p1":0.05},"features":[["X40","outer","x",40],["SX20","inner","x",20],["F1","flats+","xy",[135.42,100,100]],["F2","flats-","xy",[135.42,100,100]],["P8","peg","z",8],["H5","hole","z",5],["H3","pin","z",3],["B20","foot","x",20],["W9","wall","n",0.9],["G10","gauge","n",10],["R3","ring","n",3],["Z0","zero","n",0]]})", 24u, "055b1587120470f3b036bc72927d4b23"},
    {"slips at 2 %", R"({"typo":{"rate":0.02},"copies":5,"repeats":5})", 3u, "3a8c90e53dcde2e6995a92fd8ab3c3bb"},
    {"a slip in every reading", R"({"typo":{"rate":1}})", 4u, "ad6389604b252180eade5a8403abea7c"},
    {"machine and shrinkage", R"({"machine":{"x":0.002,"y":-0.001,"z":0},"shrink":{"xy":0.006,"z":0.004},"e":-0.03})", 5u, "385100068eb9bd3fae27d752ada23b15"},
    {"turned four ways", R"({"turned":[0,90,180,270],"copies":6,"repeats":1})", 6u, "79cce941b4109d4335bfd2b59489da45"},
    {"no resolution", R"({"caliper":{"resolution":0,"zero":0.02,"scale":0.0005,"inside_bias":-0.01}})", 7u, "d98556384b7ade71caeb400128b9eaf6"},
    {"resolution 0.005", R"({"caliper":{"resolution":0.005,"jaw_flat":0.5}})", 8u, "37d95a89cf5a0bc28951be0651d45a46"},
    {"resolution 0.05", R"({"caliper":{"resolution":0.05}})", 9u, "e266d627a0cefe23e41a70c0052b3da6"},
    {"no noise at all", R"({"noise":{"feature":0,"feature_copy":0,"copy_e":0,"copy_scale":0,"reading":0},"copies":1,"repeats":1})", 10u, "fbb29dae3d27565c8b9a84165f6ae12b"},
    {"pins in fine steps", R"({"pin_step":0.02,"features":[["a","pin","z",2],["b","pin","z",3.3],["c","pin","z",0.15]]})", 11u, "972fee0da9e0c2f14a03f63dba600d9c"},
    {"lying holes, pitch, feet", R"({"hole_h":{"c0":0.2},"flare":0.15,"features":[["a","hole_h","x",5],["b","hole_h","y",8],["c","pitch","x",50],["d","pitch","y",12.5],["e","foot","y",20],["f","inner","z",12]]})", 12u, "c386baa49456fbedee064c1016a91cc3"},
    {"rectangles, slips, turned", R"({"typo":{"rate":0.3},"turned":[90],"skew":-0.004,"features":[["a","diag+","xy",[100,60]],["b","diag-","xy",[100,60]],["c","flats+","xy",[110.5,100,60]],["d","flats-","xy",[110.5,100,60]]]})", 13u, "5e40b64d999204756f193bff3e80b4d0"},
    {"nominals beyond six digits", R"({"features":[["a","outer","x",12.34565],["b","outer","y",1234.5678],["c","hole","z",0.012],["d","diag+","xy",[33.3335,44.4447]]]})", 14u, "35b90f551a4fbc95004590fbc7b3bafb"},
    {"chain of faces", R"({"copies":2,"features":[["B1","outer","x",10,"a","b"],["S1","inner","x",20,"b","c"],["B2","outer","x",10,"c","d"],["A","outer","x",40,"a","d"],["H5","hole","z",5]]})", 15u, "370d3fe531ba6e1515df7fa0437cc954"},
    {"chain of faces, turned", R"({"copies":2,"turned":[0,90],"features":[["B1","outer","x",10,"a","b"],["S1","inner","x",20,"b","c"],["F1","foot","x",10,"c","d"],["P","pitch","x",30,"a","c"]]})", 16u, "71cc905db041f5587dcf8b2427929da2"},
};
// clang-format on

std::string csv_of(const Golden& g) {
  const auto truth = parse_truth(g.truth, g.name);
  REQUIRE(truth.ok());
  return simulate_csv(*truth, g.seed);
}

}  // namespace

TEST_CASE("MD5 gives the sums of RFC 1321, A.5") {
  CHECK(md5("") == "d41d8cd98f00b204e9800998ecf8427e");
  CHECK(md5("abc") == "900150983cd24fb0d6963f7d28e17f72");
  CHECK(md5("12345678901234567890123456789012345678901234567890123456789012345678901234567890") ==
        "57edf4a22be3c955ac49da2e2107b67a");
}

TEST_CASE("Simulated readings are those of the independent implementation, byte for byte") {
  for (const Golden& g : golden) {
    INFO(g.name);
    CHECK(md5(csv_of(g)) == g.md5_of_csv);
  }
}

TEST_CASE("Simulated readings are those of the reference file") {
  const auto expected = read_whole(std::string(FW_REFERENCE) + "/practice/all_kinds_turned.csv");
  REQUIRE(expected.ok());
  CHECK(csv_of(golden[2]) == *expected);
}
