// fitw correct: which knob, from what to what.

#include "axes.hpp"
#include "block.hpp"
#include "commands.hpp"
#include "correct/correction.hpp"
#include "correct/state.hpp"
#include "readings.hpp"
#include "record/axes_known.hpp"
#include "record/life.hpp"
#include "record/state_in_force.hpp"
#include "report/correct_report.hpp"
#include "report/estimate_report.hpp"
#include "report/json_text.hpp"
#include "setup_readings.hpp"

namespace fitw {
namespace {

constexpr const char* footer = R"(Policies:
  shrink       the plastic's size factor takes what X and Y share, steps per mm
               only what differs between them
  steps        steps per mm take all of it; wants a length of 100 mm or more,
               or --travel
  machine      steps per mm take what was measured on the machine (--travel),
               the size factor takes the rest
  shrink-only  the size factor alone; what differs between X and Y stays, and
               is told

Examples:
  fitw correct slate14.csv --state heron.json --policy shrink
  fitw correct slate14.csv --state heron.json --policy machine \
       --travel x=150:150.12,y=150:149.95
  fitw correct slate14.csv --state heron.json --policy shrink --block-g 10.42
                            flow by the block of fitw make walls, printed
                            solid and weighed alone, without brim or skirt

  fitw correct --setup "slate on Heron" --policy shrink
                            from the record; what is proposed is kept there,
                            and fitw record apply puts it in force

Take care: changed steps per mm change how far the machine moves. Note the old
values first; a wrong Z value can drive the nozzle into the bed; keep a hand on
the power switch for the first move.)";

/// What the record knows of the printer's axes, where the command line says nothing: how they are driven, and how far
/// they went, measured since the settings last changed.
void take_axes_from_record(SetupEvening& evening, fitwright::CorrectOptions& options, Outcome& outcome) {
  namespace rec = fitwright::record;
  const auto in_force = got(rec::state_in_force(evening.record, evening.setup.thing), outcome);
  if (!in_force) return;
  const auto known = got(rec::axes_known(evening.record, evening.setup.value.printer, *in_force), outcome);
  if (!known) return;
  if (options.drive.empty()) options.drive = known->drive;
  if (!options.travel.empty() || options.policy != fitwright::Policy::machine) return;
  options.travel = known->travel;
  outcome.notes.insert(outcome.notes.end(), known->notes.begin(), known->notes.end());
}

/// The same from the record: in the state that its copies were printed in, estimate and correction kept.
void correct_setup(Words& words, const SetupRequest& from, const ReadingsRequest& request,
                   fitwright::CorrectOptions options, const std::optional<BlockRequest>& block, Outcome& outcome) {
  auto evening = estimate_from_record(from, request.options, outcome);
  if (!evening) return;
  take_axes_from_record(*evening, options, outcome);
  if (!outcome.problems.empty()) return;
  const auto& [setup, gathered, used, estimates, hash, copy_prior] = evening->estimate;
  const fitwright::State& state = gathered.printed_with;
  options.block = block_of(block, state, outcome);
  if (!outcome.problems.empty()) return;
  for (const std::string& note : theory_notes(options.drive, state.steps_per_mm)) outcome.notes.push_back(note);
  options.beyond = fitwright::beyond_readings(estimates, gathered.readings);
  const auto correction = got(fitwright::correct(estimates, state, options), outcome);
  if (!correction) return;
  const fitwright::FindingOptions told{options.length_mm, options.tolerance_mm, state, options.drive, options.block};
  const auto found = fitwright::findings(estimates, gathered.readings, told);
  const auto estimate = keep(*evening, fitwright::estimate_json(estimates, gathered.readings, found), outcome);
  fitwright::record::Id id;
  if (evening->may_keep && !correction->changes.empty() && outcome.problems.empty())
    if (const auto life = got(fitwright::record::propose(evening->record, setup, estimate, *correction), outcome))
      id = life->correction.thing;
  if (!outcome.problems.empty()) return;
  if (words.flag("--json")) {
    auto document = fitwright::Json::parse(fitwright::correct_json(*correction));
    document["record"] = fitwright::Json{{"setup", evening->setup.value.name},
                                         {"estimate", estimate.text},
                                         {"correction", id.text},
                                         {"copy_prior", copy_prior}};
    outcome.out = fitwright::json_text(document);
    return;
  }
  outcome.out = fitwright::correct_text(*correction);
  outcome.out += '\n' + rests_on(*evening);
  if (correction->changes.empty()) outcome.out += "Nothing is to be changed, so nothing is proposed\n";
  if (!id.empty())
    outcome.out += "Proposed as correction " + short_id(id) + "; nothing is in force yet: fitw record apply " +
                   short_id(id) + '\n';
}

Outcome run(Words& words) {
  Outcome outcome;
  const auto from = take_setup_request(words, outcome);
  const ReadingsRequest request = take_readings_request(words, from.has_value());
  if (from && words.text("--state"))
    words.complain("--state and --setup are two sources", "the record knows how each copy was printed");
  const std::string state_path = from ? std::string() : words.required("--state");
  words.required("--policy");
  fitwright::CorrectOptions options;
  const std::string policy = words.choice("--policy", {"shrink", "steps", "machine", "shrink-only"});
  options.policy = fitwright::policy_from(policy).value();
  options.travel = take_travel(words);
  options.drive = take_drive(words);
  const auto block = take_block(words);
  options.length_mm = request.length_mm;
  options.tolerance_mm = request.tolerance_mm;
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  if (from) {
    correct_setup(words, *from, request, options, block, outcome);
    return outcome;
  }

  const auto readings = read_readings(request.path, outcome);
  const auto state = read_parsed(state_path, fitwright::parse_state, outcome);
  if (!outcome.problems.empty()) return outcome;

  options.block = block_of(block, *state, outcome);
  if (!outcome.problems.empty()) return outcome;
  outcome.notes = theory_notes(options.drive, state->steps_per_mm);
  const auto estimates = estimate_noting(*readings, request.options, outcome);
  if (!estimates) return outcome;
  options.beyond = fitwright::beyond_readings(*estimates, *readings);
  const auto correction = fitwright::correct(*estimates, *state, options);
  if (!correction) {
    add(outcome.problems, correction.problems());
    return outcome;
  }
  outcome.out = words.flag("--json") ? fitwright::correct_json(*correction) : fitwright::correct_text(*correction);
  return outcome;
}

}  // namespace

Command correct_command(CLI::App& root) {
  auto words = std::make_unique<Words>(root, "correct", "Which setting to change, from what to what", footer);
  declare_readings(*words);
  declare_setup(*words);
  words->declare("--state", "STATE.json", "The settings the coupon was printed with");
  words->declare("--policy", "POLICY", "shrink, steps, machine or shrink-only (below)");
  declare_travel(*words);
  declare_drive(*words);
  declare_block(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), run};
}

}  // namespace fitw
