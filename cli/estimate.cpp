// fitw estimate: what the readings say.

#include "axes.hpp"
#include "block.hpp"
#include "commands.hpp"
#include "correct/finding.hpp"
#include "correct/state.hpp"
#include "readings.hpp"
#include "report/estimate_report.hpp"

namespace fitw {
namespace {

constexpr const char* footer = R"(Examples:
  fitw estimate slate14.csv
  fitw estimate slate14.csv --state heron.json --length 180 --tolerance 0.2
                            findings for a drawer runner of 180 mm that may be
                            0.2 mm off
  fitw estimate slate14.csv --gauge G10=10.002 --gauge R3=3.005 --json

Before measuring: part and caliper at room temperature, half an hour after the
bed is cold; jaws wiped, closed, zero read (a row of kind "zero"); the lightest
pressure that seats the jaws, always the same. The lip of the first layers is
sharp, and it is a measurement: do not trim it before it is read.)";

/// What the estimates would still need, when they say nothing at all.
Problems unanswerable(const fitwright::Estimates& estimates, const std::string& path) {
  std::string needs;
  for (const fitwright::NotSeparable& group : estimates.not_separable)
    if (!group.would_need.empty()) needs += (needs.empty() ? "" : "; ") + group.would_need;
  return {{fitwright::Code::unanswerable,
           {path, 0, 0},
           "nothing can be estimated from these readings",
           needs.empty() ? "read more places of a coupon (fitw make frame)" : "it would need: " + needs}};
}

Outcome run(Words& words) {
  Outcome outcome;
  const ReadingsRequest request = take_readings_request(words);
  const auto state_path = words.text("--state");
  fitwright::FindingOptions options{request.length_mm, request.tolerance_mm, std::nullopt, take_drive(words),
                                    std::nullopt};
  const auto block = take_block(words);
  outcome.problems = words.problems();
  if (!outcome.problems.empty()) return outcome;

  const auto readings = read_readings(request.path, outcome);
  if (state_path) options.state = read_parsed(*state_path, fitwright::parse_state, outcome);
  options.block = block_of(block, options.state.value_or(fitwright::State{}), outcome);
  if (!outcome.problems.empty()) return outcome;

  if (options.state) outcome.notes = theory_notes(options.drive, options.state->steps_per_mm);
  const auto estimates = estimate_noting(*readings, request.options, outcome);
  if (!estimates) return outcome;
  if (estimates->parameters.empty() && estimates->combinations.empty())
    outcome.problems = unanswerable(*estimates, request.path);
  const auto found = fitwright::findings(*estimates, *readings, options);
  outcome.out = words.flag("--json") ? fitwright::estimate_json(*estimates, *readings, found)
                                     : fitwright::estimate_text(*estimates, *readings, found);
  return outcome;
}

}  // namespace

Command estimate_command(CLI::App& root) {
  auto words = std::make_unique<Words>(root, "estimate", "What the readings say, and how sure that is", footer);
  declare_readings(*words);
  words->declare("--state", "STATE.json", "The settings the coupon was printed with, for findings that need them");
  declare_drive(*words);
  declare_block(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), run};
}

}  // namespace fitw
