// Wrong usage: exit code 2, one clear sentence for each mistake, nothing on standard output, nothing written.

#include <algorithm>
#include <catch2/catch.hpp>

#include "fitw.hpp"

namespace {

struct Mistake {
  std::vector<std::string> arguments;
  std::vector<std::string> told;  ///< each must stand in the message
};

/// Words of the option parser's own messages and of C++ exceptions.
void check_no_library_text(const std::string& message) {
  for (const char* foreign :
       {"Run with --help", "required TEXT", "not expected", "CLI::", "what()", "terminate", "json.exception"})
    CHECK(message.find(foreign) == std::string::npos);
}

std::size_t lines_in(const std::string& text) {
  return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

}  // namespace

TEST_CASE("mistakes in the use of fitw") {
  const std::vector<Mistake> mistakes{
      {{}, {"a command is missing", "fitw --help"}},
      {{"estimat", "a.csv"}, {"\"estimat\" is not a command", "perhaps estimate"}},
      {{"frobnicate"}, {"\"frobnicate\" is not a command"}},
      {{"--json", "coupons"}, {"\"--json\" stands where a command should"}},
      {{"coupons", "frame"}, {"takes no word \"frame\""}},
      {{"coupons", "--jsn"}, {"no option \"--jsn\"", "perhaps --json"}},

      {{"make"}, {"DESIGN is missing", "--out is missing"}},
      {{"make", "frame"}, {"--out is missing"}},
      {{"make", "frame", "--out"}, {"--out has no value"}},
      {{"make", "hexagon", "--out", "d"}, {"hexagon"}},
      {{"make", "frame", "--out", "d", "--format", "obj"}, {"\"obj\" is not known", "stl or 3mf"}},
      {{"make", "frame", "--out", "d", "--set", "side_mm"}, {"\"side_mm\" is not NAME=VALUE"}},
      {{"make", "frame", "--out", "d", "--set", "side_mm=wide"}, {"side_mm", "wide"}},
      {{"make", "frame", "--out", "d", "--set", "sied_mm=90"}, {"sied_mm"}},
      {{"make", "frame", "walls", "--out", "d"}, {"\"walls\" is one word too many"}},

      {{"sheet", "frame"}, {"--out is missing"}},
      {{"sheet", "frame", "--out", "a.pdf", "--copies", "0"}, {"--copies", "from 1 to"}},
      {{"sheet", "frame", "--out", "a.pdf", "--paper", "b5"}, {"\"b5\" is not known", "a4 or letter"}},

      {{"estimate"}, {"READINGS.csv is missing"}},
      {{"estimate", "a.csv", "--suspects", "drop"}, {"\"drop\" is not known", "set-aside or keep"}},
      {{"estimate", "a.csv", "--length", "0"}, {"--length", "not above zero"}},
      {{"estimate", "a.csv", "--length", "-20"}, {"--length", "not above zero"}},
      {{"estimate", "a.csv", "--length", "12,5"}, {"--length", "'.' stands before decimals"}},
      {{"estimate", "a.csv", "--tolerance", "nan"}, {"--tolerance", "not a number"}},
      {{"estimate", "a.csv", "--tolerance", "1e999"}, {"--tolerance", "not a number"}},
      {{"estimate", "a.csv", "--length", "90", "--length", "80"}, {"--length is given more than once"}},
      {{"estimate", "a.csv", "--gauge", "G10"}, {"\"G10\" is not NAME=MM"}},
      {{"estimate", "a.csv", "--gauge", "G10=ten"}, {"--gauge G10", "not a number"}},
      {{"estimate", "a.csv", "--gauge", "G10=-1"}, {"--gauge G10", "below zero"}},
      {{"estimate", "a.csv", "--state"}, {"--state has no value"}},

      {{"correct", "a.csv"}, {"--state is missing", "--policy is missing"}},
      {{"correct", "a.csv", "--state", "s.json", "--policy", "guess"}, {"\"guess\" is not known", "shrink-only"}},
      {{"correct", "a.csv", "--state", "s.json", "--policy", "machine", "--travel", "x=100"},
       {"\"x=100\" is not AXIS=COMMANDED:TRAVELLED"}},
      {{"correct", "a.csv", "--state", "s.json", "--policy", "machine", "--travel", "e=100:99"}, {"\"e=100:99\""}},
      {{"correct", "a.csv", "--state", "s.json", "--policy", "machine", "--travel", "x=100:abc"},
       {"--travel x", "\"abc\" is not a number"}},
      {{"correct", "a.csv", "--state", "s.json", "--policy", "machine", "--travel", "x=1:1,x=2:2"},
       {"--travel x is given more than once"}},
      {{"correct", "a.csv", "--state", "s.json", "--policy", "machine", "--travel", "x=0:100"}, {"above zero"}},

      {{"correct", "a.csv", "--state", "s.json", "--policy", "steps", "--drive", "x=teeth:20"}, {"--drive x"}},
      {{"correct", "a.csv", "--state", "s.json", "--policy", "steps", "--drive", "x=tooth:20"}, {"\"tooth\""}},
      {{"correct", "a.csv", "--state", "s.json", "--policy", "steps", "--drive", "x=teeth"},
       {"\"teeth\" is not WORD:NUMBER"}},
      {{"estimate", "a.csv", "--drive", "w=lead:8"}, {"\"w\" is not an axis"}},
      {{"estimate", "a.csv", "--drive", "z=lead:8", "--drive", "z=lead:2"}, {"--drive z is given more than once"}},
      {{"make", "frame", "--out", "d", "--set", "side_mm=90", "--set", "side_mm=80"},
       {"--set side_mm is given more than once"}},

      {{"simulate", "default", "--out", "o.csv"}, {"--seed is missing"}},
      {{"simulate", "default", "--seed", "one", "--out", "o.csv"}, {"\"one\" is not a whole number"}},
      {{"simulate", "default", "--seed", "-1", "--out", "o.csv"}, {"\"-1\" is not a whole number"}},
      {{"simulate", "default", "--seed", "18446744073709551616", "--out", "o.csv"}, {"is not a whole number"}},
      {{"simulate", "--seed", "1", "--out", "o.csv"}, {"TRUTH.json is missing"}},
  };
  for (const Mistake& mistake : mistakes) {
    const Bench bench;
    bench.write("a.csv", "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\nX40,outer,x,40,1,1,40.12\n");
    bench.write("s.json", "{}");
    const Run run = bench.fitw(mistake.arguments);
    std::string typed = "fitw";
    for (const std::string& argument : mistake.arguments) typed += ' ' + argument;
    INFO(typed << "\n" << run.err);
    CHECK(run.code == 2);
    CHECK(run.out.empty());
    for (const std::string& piece : mistake.told) CHECK(run.err.find(piece) != std::string::npos);
    CHECK(lines_in(run.err) >= 1);
    CHECK(run.err.ends_with('\n'));
    check_no_library_text(run.err);
    CHECK(bench.names() == std::vector<std::string>{"a.csv", "s.json"});
  }
}

TEST_CASE("all mistakes of a command line are told at once") {
  const Bench bench;
  const Run run = bench.fitw({"estimate", "a.csv", "b.csv", "--length", "x", "--suspects", "y", "--gauge", "z"});
  INFO(run.err);
  CHECK(run.code == 2);
  CHECK(lines_in(run.err) == 4);
}

TEST_CASE("several settings may follow one option or each have their own") {
  const Bench bench;
  for (const std::vector<std::string>& arguments :
       {std::vector<std::string>{"make", "frame", "--out", "a", "--set", "side_mm=90", "bed_x_mm=180"},
        std::vector<std::string>{"make", "--out", "b", "--set", "side_mm=90", "bed_x_mm=180", "frame"},
        std::vector<std::string>{"make", "--set", "side_mm=90", "--set=bed_x_mm=180", "--out=c", "frame"}}) {
    const Run run = bench.fitw(arguments);
    INFO(run.err);
    CHECK(run.code == 0);
  }
  CHECK(bench.read("a/frame.stl") == bench.read("b/frame.stl"));
  CHECK(bench.read("a/frame.stl") == bench.read("c/frame.stl"));
}

TEST_CASE("help and version everywhere") {
  const Bench bench;
  const Run all = bench.fitw({"--help"});
  CHECK(all.code == 0);
  CHECK(all.err.empty());
  const Run version = bench.fitw({"--version"});
  CHECK(version.code == 0);
  CHECK(version.out.starts_with("fitw "));
  for (const char* command : {"coupons", "make", "sheet", "estimate", "correct", "simulate"}) {
    INFO(command);
    CHECK(all.out.find(std::string("\n  ") + command) != std::string::npos);
    const Run help = bench.fitw({command, "--help"});
    CHECK(help.code == 0);
    CHECK(help.err.empty());
    CHECK(help.out.find(std::string("Usage: fitw ") + command) != std::string::npos);
    CHECK(help.out.find("Examples:") != std::string::npos);
    const Run its_version = bench.fitw({command, "--version"});
    CHECK(its_version.code == 0);
    CHECK(its_version.out == version.out);
  }
  // Cautions stand where they matter.
  CHECK(bench.fitw({"make", "--help"}).out.find("burn") != std::string::npos);
  CHECK(bench.fitw({"correct", "--help"}).out.find("power switch") != std::string::npos);
}
