// Bad input, questions without an answer, and files that cannot be read or written.

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "fitw.hpp"

namespace {

const std::string header = "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\n";
const std::string good_row = "X40,outer,x,40,1,1,40.12\n";

bool told(const Run& run, const std::string& piece) { return run.err.find(piece) != std::string::npos; }

}  // namespace

TEST_CASE("every defect of a readings file is told with file, line and column, and nothing else happens") {
  const Bench bench;
  bench.write("bad.csv", header + good_row +
                             "X20,outer,x,twenty,1,1,20.05\n"
                             "X10,outer,w,10,1,1,10.11\n"
                             "X10b,outer,x,,1,1,10.1\n"
                             "X10c,blob,x,10,1,1,10.1\n");
  for (const std::vector<std::string>& arguments :
       {std::vector<std::string>{"estimate", "bad.csv", "--json"}, std::vector<std::string>{"estimate", "bad.csv"}}) {
    const Run run = bench.fitw(arguments);
    INFO(run.err);
    CHECK(run.code == 3);
    CHECK(run.out.empty());
    CHECK(told(run, "bad.csv:3:13: "));
    CHECK(told(run, "twenty"));
    CHECK(told(run, "bad.csv:4:11: "));
    CHECK(told(run, "bad.csv:5:"));
    CHECK(told(run, "bad.csv:6:6: "));
    CHECK(told(run, "; "));  // what to do
  }
}

TEST_CASE("defects of readings and of state are told together") {
  const Bench bench;
  bench.write("bad.csv", header + "X20,outer,x,twenty,1,1,20.05\n");
  bench.write("bad.json", "{\n \"size_factr\": 1.0\n}");
  const Run run = bench.fitw({"correct", "bad.csv", "--state", "bad.json", "--policy", "shrink"});
  INFO(run.err);
  CHECK(run.code == 3);
  CHECK(run.out.empty());
  CHECK(told(run, "bad.csv:2:13: "));
  CHECK(told(run, "bad.json:2:2: "));
  CHECK(told(run, "size_factr"));
}

TEST_CASE("bad truths") {
  const Bench bench;
  bench.write("truth.json", "{\"noise\": {\"reading\": \"much\"}}");
  const Run run = bench.fitw({"simulate", "truth.json", "--seed", "1", "--out", "o.csv"});
  INFO(run.err);
  CHECK(run.code == 3);
  CHECK(told(run, "truth.json:1:"));
  CHECK_FALSE(bench.has("o.csv"));
}

TEST_CASE("values out of range for a coupon") {
  const Bench bench;
  for (const char* setting : {"side_mm=3", "layer_height_mm=0", "side_mm=5000"}) {
    const Run run = bench.fitw({"make", "frame", "--out", "d", "--set", setting});
    INFO(setting << "\n" << run.err);
    CHECK(run.code == 3);
    CHECK(told(run, std::string(setting).substr(0, std::string(setting).find('='))));
    CHECK_FALSE(bench.has("d"));
  }
}

TEST_CASE("questions that the data cannot answer") {
  const Bench bench;
  bench.write("slip.csv", header + "X40,outer,x,40,1,1,4.01\n");  // the only reading, and set aside
  const Run slip = bench.fitw({"estimate", "slip.csv", "--json"});
  INFO(slip.err);
  CHECK(slip.code == 4);
  CHECK(told(slip, "slip.csv:2: "));
  CHECK(told(slip, "set aside"));

  REQUIRE(bench.fitw({"simulate", "default", "--seed", "3", "--out", "r.csv"}).code == 0);
  bench.write("s.json", "{}");
  const Run machine = bench.fitw({"correct", "r.csv", "--state", "s.json", "--policy", "machine"});
  INFO(machine.err);
  CHECK(machine.code == 4);
  CHECK(machine.out.empty());
  CHECK(told(machine, "travel"));
}

TEST_CASE("a gauge that is not in the readings is wrong usage") {
  const Bench bench;
  bench.write("r.csv", header + good_row);
  const Run run = bench.fitw({"estimate", "r.csv", "--gauge", "G77=10"});
  INFO(run.err);
  CHECK(run.code == 2);
  CHECK(told(run, "G77"));
}

TEST_CASE("files that cannot be read") {
  const Bench bench;
  bench.write("r.csv", header + good_row);
  for (const std::vector<std::string>& arguments :
       {std::vector<std::string>{"estimate", "none.csv"}, std::vector<std::string>{"estimate", "."},
        std::vector<std::string>{"estimate", "r.csv", "--state", "none.json"},
        std::vector<std::string>{"correct", "r.csv", "--state", "none.json", "--policy", "shrink"},
        std::vector<std::string>{"simulate", "none.json", "--seed", "1", "--out", "o.csv"}}) {
    const Run run = bench.fitw(arguments);
    INFO(arguments[0] << ' ' << arguments[1] << "\n" << run.err);
    CHECK(run.code == 5);
    CHECK(run.out.empty());
    CHECK_FALSE(run.err.empty());
  }
  CHECK(bench.names() == std::vector<std::string>{"r.csv"});
}

TEST_CASE("files that cannot be written") {
  const Bench bench;
  bench.write("file", "kept");
  for (const std::vector<std::string>& arguments :
       {std::vector<std::string>{"simulate", "default", "--seed", "1", "--out", "none/o.csv"},
        std::vector<std::string>{"simulate", "default", "--seed", "1", "--out", "file/o.csv"},
        std::vector<std::string>{"make", "frame", "--out", "file"},
        std::vector<std::string>{"make", "frame", "--out", "file/deeper"},
        std::vector<std::string>{"sheet", "frame", "--out", "none/frame.pdf"}}) {
    const Run run = bench.fitw(arguments);
    INFO(arguments[0] << ' ' << arguments.back() << "\n" << run.err);
    CHECK(run.code == 5);
    CHECK(run.out.empty());
    CHECK_FALSE(run.err.empty());
  }
  CHECK(bench.names() == std::vector<std::string>{"file"});
  CHECK(bench.read("file") == "kept");
}

TEST_CASE("a coupon's files come together or not at all") {
  const Bench bench;
  // A folder stands where one of the files should go: the others must not be there either, and nothing half done.
  std::filesystem::create_directories(bench.path("d/frame.svg/in-the-way"));
  const Run run = bench.fitw({"make", "frame", "--out", "d"});
  INFO(run.err);
  CHECK(run.code == 5);
  CHECK(bench.names() == std::vector<std::string>{"d", "d/frame.svg", "d/frame.svg/in-the-way"});

  bench.write("d/frame.stl", "an older one");
  CHECK(bench.fitw({"make", "frame", "--out", "d"}).code == 5);
  CHECK(bench.read("d/frame.stl") == "an older one");
  CHECK(bench.names().size() == 4);
}
