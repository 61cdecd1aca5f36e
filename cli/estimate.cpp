// fitw estimate: what the readings say.

#include "axes.hpp"
#include "block.hpp"
#include "commands.hpp"
#include "correct/finding.hpp"
#include "correct/state.hpp"
#include "readings.hpp"
#include "record/axes_known.hpp"
#include "record/record_findings.hpp"
#include "report/estimate_report.hpp"
#include "report/json_text.hpp"
#include "report/layout.hpp"
#include "setup_readings.hpp"

namespace fitw {
namespace {

constexpr const char* footer = R"(Examples:
  fitw estimate slate14.csv
  fitw estimate slate14.csv --state heron.json --length 180 --tolerance 0.2
                            findings for a drawer runner of 180 mm that may be
                            0.2 mm off
  fitw estimate --setup "slate on Heron"
                            from the record, with what it knows of the printer;
                            the estimate is kept there
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

/// The same from the record: in the state that its copies were printed in, and kept.
void estimate_setup(Words& words, const SetupRequest& from, const ReadingsRequest& request,
                    fitwright::FindingOptions options, const std::optional<BlockRequest>& block, Outcome& outcome) {
  auto evening = estimate_from_record(from, request.options, outcome);
  if (!evening) return;
  const auto& [setup, gathered, used, estimates, hash, copy_prior] = evening->estimate;
  options.state = gathered.printed_with;
  options.block = block_of(block, *options.state, outcome);
  if (!outcome.problems.empty()) return;
  for (const std::string& note : theory_notes(options.drive, options.state->steps_per_mm))
    outcome.notes.push_back(note);
  if (options.drive.empty()) {
    const auto in_force = got(fitwright::record::state_in_force(evening->record, evening->setup.thing), outcome);
    if (!in_force) return;
    const auto axes =
        got(fitwright::record::axes_known(evening->record, evening->setup.value.printer, *in_force), outcome);
    if (!axes) return;
    options.drive = axes->drive;
  }
  if (estimates.parameters.empty() && estimates.combinations.empty()) {
    outcome.problems = unanswerable(estimates, from.setup);
    return;
  }
  auto found = fitwright::findings(estimates, gathered.readings, options);
  const auto id = keep(*evening, fitwright::estimate_json(estimates, gathered.readings, found), outcome);
  const auto from_record = got(fitwright::record::record_findings(evening->record, setup, options), outcome);
  if (!from_record) return;
  found.insert(found.begin(), from_record->begin(), from_record->end());
  if (words.flag("--json")) {
    auto document = fitwright::Json::parse(fitwright::estimate_json(estimates, gathered.readings, found));
    document["record"] = fitwright::Json{
        {"setup", evening->setup.value.name}, {"estimate", id.text}, {"input_hash", hash}, {"copy_prior", copy_prior}};
    outcome.out = fitwright::json_text(document);
    return;
  }
  outcome.out = fitwright::estimate_text(estimates, gathered.readings, found);
  outcome.out += '\n' + rests_on(*evening);
  if (!id.empty()) outcome.out += "Kept in the record as estimate " + short_id(id) + '\n';
}

Outcome run(Words& words) {
  Outcome outcome;
  const auto from = take_setup_request(words, outcome);
  const ReadingsRequest request = take_readings_request(words, from.has_value());
  const auto state_path = words.text("--state");
  fitwright::FindingOptions options{request.length_mm, request.tolerance_mm, std::nullopt, take_drive(words),
                                    std::nullopt};
  const auto block = take_block(words);
  if (from && state_path)
    words.complain("--state and --setup are two sources", "the record knows how each copy was printed");
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  if (from) {
    estimate_setup(words, *from, request, options, block, outcome);
    return outcome;
  }

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
  declare_setup(*words);
  words->declare("--state", "STATE.json", "The settings the coupon was printed with, for findings that need them");
  declare_drive(*words);
  declare_block(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), run};
}

}  // namespace fitw
