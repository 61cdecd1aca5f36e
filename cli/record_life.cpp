// fitw record apply, prove, withdraw: the life of a correction.

#include <algorithm>

#include "readings.hpp"
#include "record/proof.hpp"
#include "record_parts.hpp"
#include "record_view.hpp"
#include "report/correct_report.hpp"
#include "report/json_text.hpp"
#include "report/layout.hpp"

namespace fitw {

namespace rec = fitwright::record;
using fitwright::Align;
using fitwright::Json;
using fitwright::paragraph;

namespace {

constexpr const char* apply_footer = R"(Examples:
  fitw record apply last
                            shows old and new values and the cautions; writes
                            nothing
  fitw record apply last --yes
                            says that it is done: set the new values on the
                            machine and in its programs

Take care: changed steps per mm change how far the machine moves. Note the old
values first; a wrong Z value can drive the nozzle into the bed; keep a hand on
the power switch for the first move.)";
constexpr const char* prove_footer = R"(Examples:
  fitw record prove last
                            by the copies printed since it was applied
  fitw record prove last --copies 3,4
  fitw record prove last --readings proof.csv

Print the same coupon once more with the new settings, read it, and hold it
against what was foretold.)";
constexpr const char* withdraw_footer = R"(Examples:
  fitw record withdraw last --reason "measured before the belts were changed"
  fitw record withdraw last --reason "lid jams" --yes

One that is in force turns its knobs back: that is shown first, and --yes says
that it is done.

Take care: changed steps per mm change how far the machine moves; keep a hand
on the power switch for the first move.)";

std::string setup_name(rec::Record& record, const rec::Id& id) {
  const auto setup = rec::one<rec::Setup>(record, id);
  return setup ? setup->value.name : "a setup that ended";
}

Json knobs_json(const std::vector<rec::KnobTurned>& knobs) {
  Json out = Json::array();
  for (const auto& k : knobs) out.push_back({{"knob", k.knob}, {"old", k.old_value}, {"new", k.new_value}});
  return out;
}

std::string step_json(const rec::StepTaken& step, bool done) {
  Json others = Json::array();
  for (const auto& other : step.others) {
    Json knobs = Json::array();
    for (const auto& d : rec::differences(other.before, other.after))
      knobs.push_back({{"knob", d.knob}, {"old", d.a}, {"new", d.b}});
    others.push_back({{"setup", other.setup_name},
                      {"stale", other.stale},
                      {"correction", other.correction.text},
                      {"knobs", std::move(knobs)}});
  }
  return fitwright::json_text(Json{{"schema", fitwright::report_schema},
                                   {"correction", step.life.correction.thing.text},
                                   {"standing", rec::word(step.life.standing)},
                                   {"done", done},
                                   {"knobs", knobs_json(step.knobs)},
                                   {"others", std::move(others)},
                                   {"cautions", step.cautions},
                                   {"commands", step.commands},
                                   {"notes", step.notes}});
}

std::string knob_rows(const std::vector<rec::KnobTurned>& knobs) {
  std::vector<std::vector<std::string>> rows{{"", "old", "new"}};
  for (const auto& k : knobs)
    rows.push_back({fitwright::knob_name(k.knob), knob_value(k.knob, k.old_value), knob_value(k.knob, k.new_value)});
  return fitwright::columns(rows, {Align::left, Align::right, Align::right});
}

/// `done`: it was written; else it is what would be.
std::string step_text(rec::Record& record, const rec::StepTaken& step, bool done) {
  std::string out = "Correction " + short_id(step.life.correction.thing) + " of " +
                    setup_name(record, step.life.correction.value.setup) + (done ? ", " : ", if it is ") +
                    std::string(rec::word(step.life.standing)) + '\n';
  out += step.knobs.empty() ? "  no knob is turned\n" : knob_rows(step.knobs);
  if (!step.others.empty()) out += "\nOther setups of this printer\n";
  for (const auto& other : step.others) {
    if (other.stale) {
      out += paragraph(other.setup_name +
                           ": its earlier readings are of no use for the new steps; it was never "
                           "calibrated, so there is nothing to re-express",
                       "  - ", "    ");
      continue;
    }
    std::string change;
    for (const auto& d : rec::differences(other.before, other.after))
      change += (change.empty() ? "" : ", ") + turn_in_words(d.knob, d.a, d.b);
    out += paragraph(other.setup_name + ": to print as before it becomes " + change +
                         (other.correction.empty() ? std::string()
                                                   : "; proposed as " + short_id(other.correction) +
                                                         ", fitw record apply " + short_id(other.correction)),
                     "  - ", "    ");
  }
  if (!step.cautions.empty()) out += "\nTake care\n";
  for (const std::string& caution : step.cautions) out += paragraph(caution, "  ! ", "    ");
  if (!step.commands.empty()) out += "\nTo do\n";
  for (const std::string& command : step.commands) out += "  " + command + '\n';
  for (const std::string& note : step.notes) out += '\n' + paragraph(note, "", "");
  return out;
}

/// Shows a step, or does it with --yes.
template <class Look, class Do>
void show_or_do(Words& words, rec::Record& record, bool must_say_yes, const std::string& how, Look&& look, Do&& take,
                Outcome& outcome) {
  const bool yes = words.flag("--yes") || !must_say_yes;
  const bool as_json = words.flag("--json");
  const auto step = got(yes ? take() : look(), outcome);
  if (!step) return;
  outcome.out = step_told(record, *step, yes, as_json);
  if (!yes && !as_json) outcome.out += "\nNothing is written yet. When it is to be so: " + how + " --yes\n";
}

Outcome run_apply(Words& words) {
  Outcome outcome;
  const std::string typed = words.word();
  rec::StepOptions options;
  options.reason = words.text("--reason").value_or("");
  options.force = words.flag("--force");
  options.at = take_at(words);
  const std::string path = take_record_path(words, outcome);
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  auto record = open_for(Use::change, path, outcome);
  if (!record) return outcome;
  const auto life = got(find_correction(*record, typed, {rec::Standing::proposed}), outcome);
  if (!life) return outcome;
  const rec::Id id = life->correction.thing;
  show_or_do(
      words, *record, true, "fitw record apply " + short_id(id),
      [&] { return rec::look_at_applying(*record, id, options); }, [&] { return rec::apply(*record, id, options); },
      outcome);
  return outcome;
}

Outcome run_withdraw(Words& words) {
  Outcome outcome;
  const std::string typed = words.word();
  rec::StepOptions options;
  options.reason = words.required("--reason");
  options.at = take_at(words);
  const std::string path = take_record_path(words, outcome);
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  auto record = open_for(Use::change, path, outcome);
  if (!record) return outcome;
  const auto life =
      got(find_correction(*record, typed, {rec::Standing::proposed, rec::Standing::applied, rec::Standing::proved}),
          outcome);
  if (!life) return outcome;
  const rec::Id id = life->correction.thing;
  show_or_do(
      words, *record, life->standing != rec::Standing::proposed,
      "fitw record withdraw " + short_id(id) + " --reason ...",
      [&] { return rec::look_at_withdrawing(*record, id, options); },
      [&] { return rec::withdraw(*record, id, options); }, outcome);
  return outcome;
}

std::string proof_json(const rec::ProofKept& kept) {
  Json places = Json::array();
  for (const auto& p : kept.proof.places)
    places.push_back({{"place", p.place},
                      {"foretold_mm", p.foretold_mm},
                      {"without_mm", p.without_mm},
                      {"measured_mm", p.measured_mm},
                      {"half_mm", p.half_mm},
                      {"inside", p.inside},
                      {"tells", p.tells}});
  Json copies = Json::array();
  for (const rec::Id& id : kept.copies) copies.push_back(id.text);
  return fitwright::json_text(Json{{"schema", fitwright::report_schema},
                                   {"correction", kept.life.correction.thing.text},
                                   {"verdict", rec::word(kept.proof.verdict)},
                                   {"standing", rec::word(kept.life.standing)},
                                   {"text", kept.proof.text},
                                   {"because", kept.proof.because},
                                   {"action", kept.proof.action},
                                   {"places", std::move(places)},
                                   {"copies", std::move(copies)}});
}

std::string proof_text(const rec::ProofKept& kept) {
  return paragraph(kept.proof.text, "", "") + paragraph(kept.proof.because, "  ", "  ") +
         paragraph("To do: " + kept.proof.action, "  ", "  ");
}

/// --copies 3,4
std::vector<rec::Id> take_copies(const std::string& typed, rec::Record& record, const rec::Id& setup,
                                 Outcome& outcome) {
  std::vector<rec::Id> out;
  for (std::size_t begin = 0; begin < typed.size();) {
    const std::size_t end = std::min(typed.find(',', begin), typed.size());
    if (const auto copy = got(find_copy(record, setup, typed.substr(begin, end - begin)), outcome))
      out.push_back(copy->thing);
    begin = end + 1;
  }
  return out;
}

Outcome run_prove(Words& words) {
  Outcome outcome;
  const std::string typed = words.word();
  const auto copies = words.text("--copies"), file = words.text("--readings");
  if (copies && file) words.complain("--copies and --readings are two ways to say the same", "give one of them");
  rec::StepOptions options;
  options.reason = words.text("--reason").value_or("");
  options.at = take_at(words);
  const std::string path = take_record_path(words, outcome);
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  std::optional<fitwright::ReadingSet> readings;
  if (file) readings = read_readings(*file, outcome);
  if (!outcome.problems.empty()) return outcome;
  auto record = open_for(Use::change, path, outcome);
  if (!record) return outcome;
  const auto life = got(find_correction(*record, typed, {rec::Standing::applied, rec::Standing::proved}), outcome);
  if (!life) return outcome;
  const rec::Id id = life->correction.thing;
  std::vector<rec::Id> of;
  if (copies) of = take_copies(*copies, *record, life->correction.value.setup, outcome);
  if (!outcome.problems.empty()) return outcome;
  const auto proof =
      got(readings ? rec::prove(*record, id, *readings, options) : rec::prove(*record, id, of, options), outcome);
  if (proof) outcome.out = words.flag("--json") ? proof_json(*proof) : proof_text(*proof);
  return outcome;
}

}  // namespace

std::string step_told(rec::Record& record, const rec::StepTaken& step, bool done, bool as_json) {
  if (as_json) return step_json(step, done);
  return step_text(record, step, done) + (done ? "\nDone.\n" : "");
}

Command record_apply_command(CLI::App& above) {
  auto words =
      std::make_unique<Words>(above, "apply", "Puts a proposed correction in force; shows it first", apply_footer);
  words->declare_word("ID|last", "Which correction; the last one proposed");
  words->declare_flag("--yes", "Do it; without, it is shown only");
  words->declare_flag("--force", "Although its copies were printed with other settings than those in force");
  words->declare("--reason", "WORDS", "Why");
  declare_at(*words, "When it was set (now)");
  declare_record(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), run_apply};
}

Command record_prove_command(CLI::App& above) {
  auto words =
      std::make_unique<Words>(above, "prove", "Holds a new print against what a correction foretold", prove_footer);
  words->declare_word("ID|last", "Which correction; the last one in force");
  words->declare("--copies", "N,N,...", "Prints of the proof (all since it was applied)");
  words->declare("--readings", "FILE.csv", "Readings of a proof print that are not in the record");
  words->declare("--reason", "WORDS", "What is to be known of it");
  declare_at(*words, "When it was proved (now)");
  declare_record(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), run_prove};
}

Command record_withdraw_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "withdraw", "Takes a correction back", withdraw_footer);
  words->declare_word("ID|last", "Which correction; the last that was not withdrawn");
  words->declare("--reason", "WORDS", "Why");
  words->declare_flag("--yes", "Do it; without, one that is in force is shown only");
  declare_at(*words, "When it was taken back (now)");
  declare_record(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), run_withdraw};
}

}  // namespace fitw
