// fitw simulate: readings of a printer whose truth is known.

#include "practice/simulate.hpp"

#include <charconv>
#include <cstdint>

#include "base/file.hpp"
#include "base/text.hpp"
#include "commands.hpp"
#include "readings.hpp"

namespace fitw {
namespace {

constexpr const char* footer = R"(Examples:
  fitw simulate default --seed 1 --out practice.csv
                          the built-in truth
  fitw simulate wren.json --seed 7 --out wren.csv
                          a truth of your own; what it leaves out is as in the
                          built-in one

The same truth and seed give the same bytes everywhere.)";

std::uint64_t take_seed(Words& words) {
  const std::string typed = words.required("--seed");
  std::uint64_t seed = 0;
  const auto [end, error] = std::from_chars(typed.data(), typed.data() + typed.size(), seed);
  if (!typed.empty() && (error != std::errc() || end != typed.data() + typed.size()))
    words.complain("--seed: " + fitwright::quote(typed) + " is not a whole number from 0 to 18446744073709551615",
                   "give one; another seed gives another set of readings");
  return seed;
}

Outcome run(Words& words) {
  Outcome outcome;
  const std::string source = words.word();
  const std::uint64_t seed = take_seed(words);
  const std::string out_path = words.required("--out");
  outcome.problems = words.problems();
  if (!outcome.problems.empty()) return outcome;

  const auto truth = source == "default" ? std::optional(fitwright::default_truth())
                                         : read_parsed(source, fitwright::parse_truth, outcome);
  if (!truth) return outcome;
  const std::string csv = fitwright::simulate_csv(*truth, seed);
  if (const auto written = fitwright::write_whole(out_path, csv); !written) {
    add(outcome.problems, written.problems());
    return outcome;
  }
  outcome.out = "Readings of the practice printer, seed " + std::to_string(seed) + ", written to " + out_path + '\n';
  return outcome;
}

}  // namespace

Command simulate_command(CLI::App& root) {
  auto words = std::make_unique<Words>(root, "simulate", "Readings of a printer whose truth is known", footer);
  words->declare_word("TRUTH.json", "What the printer and the caliper really do, or the word default");
  words->declare("--seed", "N", "Which set of readings: a whole number");
  words->declare("--out", "FILE", "Where the readings go (CSV)");
  return {std::move(words), run};
}

}  // namespace fitw
