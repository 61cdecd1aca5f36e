#include "record_bench.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>
#include <sstream>

#include "correct/algebra.hpp"
#include "design/design.hpp"

using nlohmann::json;

namespace {

constexpr const char* truth_file = FW_SOURCE "/gui/demo/heron-slate-14.truth.json";

/// The frame's features, as the demo's truth lists them.
json frame_features() {
  std::ifstream in(truth_file);
  const json all = json::parse(in)["features"];
  json out = json::array();
  for (const json& f : all)
    if (f[1] == "zero" || f[1] == "outer" || f[1] == "inner" || f[1] == "flats+" || f[1] == "flats-") out.push_back(f);
  return out;
}

/// The header, the rows of one copy as copy 1, and the steel of the first copy.
std::string only_copy(const std::string& csv, int copy) {
  std::istringstream in(csv);
  std::string line, out;
  std::getline(in, line);
  out = line + '\n';
  constexpr std::size_t copy_column = 4;
  while (std::getline(in, line)) {
    std::vector<std::string> cells;
    std::istringstream row(line);
    for (std::string cell; std::getline(row, cell, ',');) cells.push_back(cell);
    if (line.ends_with(',')) cells.emplace_back();
    if (cells[copy_column] != std::to_string(copy)) continue;
    cells[copy_column] = "1";
    for (std::size_t i = 0; i < cells.size(); ++i) out += (i == 0 ? "" : ",") + cells[i];
    out += '\n';
  }
  return out;
}

}  // namespace

Run RecordBench::attempt(std::vector<std::string> arguments) const {
  arguments.insert(arguments.end(), {"--record", record});
  return bench.fitw(arguments);
}

std::string RecordBench::run(std::vector<std::string> arguments) const {
  std::string typed = "fitw";
  for (const std::string& a : arguments) typed += ' ' + a;
  const Run run = attempt(std::move(arguments));
  INFO(typed << "\n" << run.out << run.err);
  REQUIRE(run.code == 0);
  return run.out;
}

json RecordBench::json(std::vector<std::string> arguments) const {
  arguments.emplace_back("--json");
  return nlohmann::json::parse(run(std::move(arguments)));
}

void RecordBench::first_evening() const {
  run({"record", "add", "printer", "Heron", "--set", "bed_x_mm=220", "bed_y_mm=220"});
  run({"record", "add", "material", "PLA", "--set", "density_g_cm3=1.24"});
  run({"record", "add", "spool", "PLA slate, batch 14", "--material", "PLA", "--set", "batch=14", "price_per_kg=22",
       "currency=EUR"});
  run({"record", "add", "caliper", "tool library", "--set", "resolution_mm=0.01"});
  run({"record", "add", "setup", "slate on Heron", "--printer", "Heron", "--spool", "PLA slate, batch 14"});
  run({"record", "add", "coupon", "frame"});
}

void RecordBench::print(const std::string& file, const PracticePrinter& printer, const nlohmann::json& state, int seed,
                        int copy, int turned_deg) const {
  const auto now = fitwright::parse_state(state.dump(), "state");
  REQUIRE(now.ok());
  const auto out = fitwright::outcome({}, *now, {printer.scale_x, printer.scale_y, printer.edge_mm});
  const nlohmann::json truth{{"scale", {{"x", out.gain_x - 1}, {"y", out.gain_y - 1}}},
                             {"e", out.edge_mm},
                             {"copies", copy},
                             {"repeats", 2},
                             {"turned", {turned_deg}},
                             {"features", frame_features()}};
  bench.write("truth.json", truth.dump());
  const Run made = bench.fitw({"simulate", "truth.json", "--seed", std::to_string(seed), "--out", file});
  INFO(made.err);
  REQUIRE(made.code == 0);
  bench.write(file, only_copy(bench.read(file), copy));
}
