// Three evenings with the record, as a person has them: real processes, one file.

#include <catch2/catch.hpp>
#include <cmath>

#include "record_bench.hpp"

using nlohmann::json;

namespace {

json setup_of(const RecordBench& b, const std::string& name) {
  const json all = b.json({"record", "list"});
  for (const json& setup : all["setups"])
    if (setup["name"] == name) return setup;
  FAIL("no setup " << name);
  return {};
}

json parameter(const json& document, const std::string& name) {
  for (const json& p : document["parameters"])
    if (p["name"] == name) return p;
  FAIL("no parameter " << name);
  return {};
}

}  // namespace

TEST_CASE("three evenings: measure and correct, prove, begin the next spool and join another bench") {
  const RecordBench b;
  const PracticePrinter heron;
  b.first_evening();

  // First evening: two copies, the second turned.
  b.run({"record", "add", "copy", "--setup", "slate on Heron", "--coupon", "frame"});
  b.run({"record", "add", "copy", "--setup", "slate on Heron", "--coupon", "frame", "--turned", "90"});
  const json usual = setup_of(b, "slate on Heron")["state"];
  b.print("one.csv", heron, usual, 7, 1);
  b.print("two.csv", heron, usual, 7, 2, 90);
  const json first = b.json({"record", "add", "readings", "one.csv", "--caliper", "tool library"});
  CHECK(first["prints"] == json::array({1}));
  CHECK(first["added"].get<int>() > 30);
  CHECK(b.json({"record", "add", "readings", "two.csv", "--caliper", "tool library"})["prints"] == json::array({2}));
  const json again = b.json({"record", "add", "readings", "one.csv", "--caliper", "tool library"});
  CHECK(again["added"] == 0);
  CHECK(again["prints"] == json::array({1}));

  // The record and a readings file with the same readings give the same numbers, to the last digit.
  const json kept = b.json({"estimate", "--setup", "slate on Heron"});
  CHECK(kept["record"]["copy_prior"].get<std::string>().find("typical") != std::string::npos);
  b.run({"record", "export", "--measured", "exported.csv", "--setup", "slate on Heron"});
  const Run of_file = b.bench.fitw({"estimate", "exported.csv", "--json"});
  INFO(of_file.err);
  REQUIRE(of_file.code == 0);
  const json file = json::parse(of_file.out);
  CHECK(kept["parameters"] == file["parameters"]);
  CHECK(kept["covariance"] == file["covariance"]);
  CHECK(kept["counts"] == file["counts"]);
  const std::string as_text = b.run({"estimate", "--setup", "slate on Heron"});
  CHECK(as_text.find("Typical scatter between copies assumed") != std::string::npos);
  // Kept once, however often it is asked for.
  CHECK(b.json({"estimate", "--setup", "slate on Heron"})["record"] == kept["record"]);

  // A correction: proposed, shown, and in force only when that is said.
  const json proposed = b.json({"correct", "--setup", "slate on Heron", "--policy", "shrink"});
  const std::string id = proposed["record"]["correction"];
  b.bench.write("state.json", usual.dump());
  const Run by_file =
      b.bench.fitw({"correct", "exported.csv", "--state", "state.json", "--policy", "shrink", "--json"});
  REQUIRE(by_file.code == 0);
  CHECK(proposed["changes"] == json::parse(by_file.out)["changes"]);
  CHECK(proposed["remains_mm"] == json::parse(by_file.out)["remains_mm"]);
  const std::string shown = b.run({"record", "apply", "last"});
  CHECK(shown.find("Take care") != std::string::npos);
  CHECK(shown.find("Take care") < shown.find("To do"));
  CHECK(b.json({"record", "apply", "last"})["cautions"].dump().find("power switch") != std::string::npos);
  CHECK(shown.find("--yes") != std::string::npos);
  CHECK(setup_of(b, "slate on Heron")["state"] == usual);
  const json applied = b.json({"record", "apply", id, "--yes"});
  CHECK(applied["standing"] == "applied");
  const json corrected = setup_of(b, "slate on Heron")["state"];
  CHECK(corrected != usual);
  CHECK(b.attempt({"record", "apply", id, "--yes"}).code == 4);
  CHECK(b.attempt({"record", "prove", id}).code == 4);

  // Second evening: the same coupon once more, with the new settings.
  b.run({"record", "add", "copy", "--setup", "slate on Heron", "--coupon", "frame"});
  b.print("three.csv", heron, corrected, 7, 3);
  CHECK(b.json({"record", "add", "readings", "three.csv", "--caliper", "tool library"})["prints"] == json::array({3}));
  const json proof = b.json({"record", "prove", "last"});
  INFO(proof.dump(1));
  CHECK(proof["verdict"] == "proved");
  CHECK(setup_of(b, "slate on Heron")["corrections"][0]["standing"] == "proved");
  const json after = b.json({"estimate", "--setup", "slate on Heron"});
  CHECK(after["counts"]["copies"] == 1);  // the earlier ones were printed with other settings
  const json settled = b.json({"correct", "--setup", "slate on Heron", "--policy", "shrink-only"});
  CHECK(settled["changes"].empty() == settled["record"]["correction"].get<std::string>().empty());
  for (const char* name : {"scale_x", "scale_y"})
    CHECK(std::abs(parameter(after, name)["value"].get<double>()) <
          std::abs(parameter(kept, name)["value"].get<double>()));

  // Third evening: the next spool begins with what the first one taught, and says that it is not measured.
  b.run({"record", "add", "spool", "PLA slate, batch 15", "--material", "PLA", "--set", "batch=15"});
  b.run({"record", "add", "setup", "slate 15 on Heron", "--printer", "Heron", "--spool", "PLA slate, batch 15"});
  const json next = b.json({"record", "show", "slate 15 on Heron"});
  REQUIRE_FALSE(next["expected"].is_null());
  const double expected = next["expected"]["size_factor"];
  CHECK(next["expected"]["lower"].get<double>() < expected);
  CHECK(expected < next["expected"]["upper"].get<double>());
  CHECK(expected == Approx(corrected["size_factor"].get<double>()).margin(0.001));  // one spool's own error of 0.05 %
  CHECK(next["expected"]["sentence"].get<std::string>().find("not measured") != std::string::npos);

  // Another bench, with Wren: its record comes in, once.
  RecordBench wren;
  wren.record = "wren.fitwright";
  wren.run({"record", "add", "printer", "Wren", "--set", "bed_x_mm=180", "bed_y_mm=180"});
  wren.run({"record", "add", "material", "PETG", "--set", "density_g_cm3=1.27"});
  wren.run({"record", "add", "spool", "PETG clear, batch 3", "--material", "PETG"});
  wren.run({"record", "add", "setup", "clear on Wren", "--printer", "Wren", "--spool", "PETG clear, batch 3"});
  wren.print("w.csv", {-0.004, -0.0035, 0.05}, json::object(), 21, 1);
  wren.run({"record", "add", "readings", "w.csv"});
  wren.run({"record", "export", "wren.json"});
  b.bench.write("wren.json", wren.bench.read("wren.json"));
  const json merged = b.json({"record", "import", "wren.json"});
  CHECK(merged["added"].get<int>() > 30);
  CHECK(merged["new_conflicts"] == 0);
  const json twice = b.json({"record", "merge", "wren.json"});
  CHECK(twice["added"] == 0);
  CHECK(twice["present"] == merged["added"]);
  CHECK(b.json({"record", "list"})["setups"].size() == 3);
  CHECK(b.json({"estimate", "--setup", "clear on Wren"})["parameters"] ==
        wren.json({"estimate", "--setup", "clear on Wren"})["parameters"]);

  // For a spreadsheet.
  b.run({"record", "export", "--readings", "sheet.csv"});
  CHECK(b.bench.read("sheet.csv").find("PETG clear, batch 3") != std::string::npos);
  b.run({"record", "export", "--corrections", "sheet.csv", "--setup", "slate on Heron"});
  CHECK(b.bench.read("sheet.csv").find("size_factor") != std::string::npos);

  // All of it, out, in and out again.
  b.run({"record", "check"});
  b.run({"record", "export", "all.json"});
  RecordBench empty;
  empty.bench.write("all.json", b.bench.read("all.json"));
  empty.run({"record", "import", "all.json"});
  empty.run({"record", "export", "again.json"});
  CHECK(empty.bench.read("again.json") == b.bench.read("all.json"));
}

TEST_CASE("a correction withdrawn: shown first, then the old settings are in force again") {
  const RecordBench b;
  b.first_evening();
  b.print("one.csv", {}, json::object(), 5, 1);
  b.run({"record", "add", "readings", "one.csv"});
  const json usual = setup_of(b, "slate on Heron")["state"];
  b.run({"correct", "--setup", "slate on Heron", "--policy", "shrink"});
  b.run({"record", "apply", "last", "--yes"});
  CHECK(setup_of(b, "slate on Heron")["state"] != usual);
  CHECK(b.run({"record", "withdraw", "last", "--reason", "lid jams"}).find("Nothing is written yet") !=
        std::string::npos);
  CHECK(setup_of(b, "slate on Heron")["state"] != usual);
  b.run({"record", "withdraw", "last", "--reason", "lid jams", "--yes"});
  const json setup = setup_of(b, "slate on Heron");
  CHECK(setup["state"] == usual);
  CHECK(setup["corrections"][0]["standing"] == "withdrawn");
  CHECK(setup["corrections"][0]["events"].back()["reason"] == "lid jams");
}

TEST_CASE("steps that are changed for one material are told to the other, with what it becomes") {
  const RecordBench b;
  b.first_evening();
  b.run({"record", "add", "material", "PETG"});
  b.run({"record", "add", "spool", "PETG clear, batch 3", "--material", "PETG"});
  b.run({"record", "add", "setup", "clear on Heron", "--printer", "Heron", "--spool", "PETG clear, batch 3"});
  int seed = 40;
  for (const char* setup : {"slate on Heron", "clear on Heron"}) {
    b.print("r.csv", {}, setup_of(b, setup)["state"], ++seed, 1);
    b.run({"record", "add", "readings", "r.csv", "--setup", setup});
  }
  b.run({"correct", "--setup", "clear on Heron", "--policy", "shrink-only"});
  b.run({"record", "apply", "last", "--yes"});
  b.run({"correct", "--setup", "slate on Heron", "--policy", "steps", "--travel", "x=150:149.6,y=150:149.8"});
  const std::string shown = b.run({"record", "apply", "last"});
  CHECK(shown.find("Other setups of this printer") != std::string::npos);
  CHECK(shown.find("clear on Heron: to print as before it becomes size factor") != std::string::npos);
  const json done = b.json({"record", "apply", "last", "--yes"});
  REQUIRE(done["others"].size() == 1);
  const std::string its = done["others"][0]["correction"];
  CHECK(done["others"][0]["stale"] == false);
  CHECK(setup_of(b, "clear on Heron")["due"] == true);
  b.run({"record", "apply", its, "--yes"});
  CHECK(setup_of(b, "clear on Heron")["due"] == false);
}
