// fitw record amend, end, change: things and settings that are not what they were.

#include "base/text.hpp"
#include "readings.hpp"
#include "record_any.hpp"
#include "record_fields.hpp"
#include "record_parts.hpp"
#include "record_view.hpp"
#include "report/json_text.hpp"

namespace fitw {

namespace rec = fitwright::record;

namespace {

constexpr const char* amend_footer = R"(Examples:
  fitw record amend Heron --set name="Heron, basement" --reason "two Herons"
  fitw record amend "PLA slate, batch 14" --set price_per_kg=21 \
       --reason "read the bill again"

--set takes what fitw record add takes for that kind, and name. Steps per mm and
settings are no part of this: they have dates (fitw record change). The old
values are kept.)";
constexpr const char* end_footer = R"(Examples:
  fitw record end "slate on Heron" --reason "spool is empty"

It is no longer listed; all that was measured stays in the record.)";
constexpr const char* change_footer = R"(Examples:
  fitw record change "slate on Heron" --set flow=0.97 --reason "by a wall test"
  fitw record change "slate on Heron" --state heron.json \
       --reason "new belts, steps set anew"

For settings that were changed without fitw correct. Kept as a correction, by
hand, and in force at once.

Take care: changed steps per mm change how far the machine moves. Note the old
values first; a wrong Z value can drive the nozzle into the bed; keep a hand on
the power switch for the first move.)";

/// What to set in a thing of each kind.
void bind(Fields& fields, rec::Printer& p) {
  fields.text("name", p.name).positive("bed_x_mm", p.bed_x_mm).positive("bed_y_mm", p.bed_y_mm).text("note", p.note);
}
void bind(Fields& fields, rec::Material& m) {
  fields.text("name", m.name).positive("density_g_cm3", m.density_g_cm3).text("note", m.note);
}
void bind(Fields& fields, rec::Spool& s) {
  fields.text("name", s.name)
      .text("colour", s.colour)
      .text("batch", s.batch)
      .positive("price_per_kg", s.price_per_kg)
      .text("currency", s.currency)
      .text("note", s.note);
}
void bind(Fields& fields, rec::Caliper& c) {
  fields.text("name", c.name).positive("resolution_mm", c.resolution_mm).text("serial", c.serial).text("note", c.note);
}
void bind(Fields& fields, rec::Setup& s) {
  fields.text("name", s.name)
      .positive("nozzle_mm", s.nozzle_mm)
      .number("nozzle_c", s.nozzle_c)
      .number("bed_c", s.bed_c)
      .text("note", s.note);
}

struct Request {
  std::string typed, reason, at, path;
  bool as_json = false;
};

Request take_request(Words& words, Outcome& outcome) {
  Request r;
  r.typed = words.word();
  r.reason = words.required("--reason");
  r.at = take_at(words);
  r.path = take_record_path(words, outcome);
  r.as_json = words.flag("--json");
  return r;
}

std::string said(const Thing& thing, const char* what, bool as_json) {
  if (as_json)
    return fitwright::json_text(fitwright::Json{{"schema", fitwright::report_schema},
                                                {"kind", thing.kind},
                                                {"name", thing.name},
                                                {"id", thing.id.text},
                                                {"done", what}});
  return thing.kind + " \"" + thing.name + "\" " + what + ", id " + short_id(thing.id) + '\n';
}

template <class T>
void amend_as(rec::Record& record, Words& words, const Thing& thing, const Request& request, Outcome& outcome) {
  const auto kept = got(rec::one<T>(record, thing.id), outcome);
  if (!kept) return;
  T value = kept->value;
  Fields fields;
  bind(fields, value);
  fields.take(words);
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return;
  if (got(rec::amend(record, *kept, value, request.reason, request.at), outcome))
    outcome.out = said({thing.kind, value.name, thing.id}, "amended", request.as_json);
}

/// Names of what still uses a thing.
template <class User>
void note_users(rec::Record& record, const std::string& column, const Thing& thing, std::string& names) {
  const auto users = rec::all_of<User>(record, column, thing.id);
  if (users)
    for (const auto& user : *users) names += (names.empty() ? "" : ", ") + fitwright::quote(user.value.name);
}

template <class T>
void end_as(rec::Record& record, const Thing& thing, const Request& request, Outcome& outcome) {
  std::string users;
  if (thing.kind == "printer" || thing.kind == "spool") note_users<rec::Setup>(record, thing.kind, thing, users);
  if (thing.kind == "material") note_users<rec::Spool>(record, thing.kind, thing, users);
  if (!users.empty()) {
    outcome.problems.push_back({fitwright::Code::bad_input,
                                {},
                                thing.kind + ' ' + fitwright::quote(thing.name) + " is in use by " + users,
                                "end those first"});
    return;
  }
  const auto kept = got(rec::one<T>(record, thing.id), outcome);
  if (!kept) return;
  if (got(rec::end(record, *kept, request.reason, request.at), outcome))
    outcome.out = said(thing, "ended", request.as_json);
}

/// Calls `run.template operator()<T>()` for the type of a kind; a problem for one that cannot be.
template <class Run>
void for_kind(const Thing& thing, Run&& run, Outcome& outcome) {
  if (thing.kind == "printer") return run.template operator()<rec::Printer>();
  if (thing.kind == "material") return run.template operator()<rec::Material>();
  if (thing.kind == "spool") return run.template operator()<rec::Spool>();
  if (thing.kind == "caliper") return run.template operator()<rec::Caliper>();
  if (thing.kind == "setup") return run.template operator()<rec::Setup>();
  outcome.problems.push_back({fitwright::Code::usage,
                              {},
                              "a " + thing.kind + " cannot be amended or ended",
                              thing.kind == "correction" ? "fitw record withdraw takes one back" : "add another"});
}

Outcome run_amend(Words& words) {
  Outcome outcome;
  const Request request = take_request(words, outcome);
  if (words.settings("--set").empty()) words.complain("--set is missing", "say what is different: --set NAME=VALUE");
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  auto record = open_for(Use::change, request.path, outcome);
  if (!record) return outcome;
  const auto thing = got(find_any(*record, request.typed), outcome);
  if (!thing) return outcome;
  for_kind(
      *thing, [&]<class T>() { amend_as<T>(*record, words, *thing, request, outcome); }, outcome);
  return outcome;
}

Outcome run_end(Words& words) {
  Outcome outcome;
  const Request request = take_request(words, outcome);
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  auto record = open_for(Use::change, request.path, outcome);
  if (!record) return outcome;
  const auto thing = got(find_any(*record, request.typed), outcome);
  if (!thing) return outcome;
  for_kind(
      *thing, [&]<class T>() { end_as<T>(*record, *thing, request, outcome); }, outcome);
  return outcome;
}

Outcome run_change(Words& words) {
  Outcome outcome;
  const Request request = take_request(words, outcome);
  const auto state_path = words.text("--state");
  const bool some = !words.settings("--set").empty();
  if (!state_path && !some) words.complain("--set or --state is missing", "say what the settings are now");
  add(outcome.problems, words.problems());
  std::optional<fitwright::State> state;
  if (state_path) state = read_parsed(*state_path, fitwright::parse_state, outcome);
  if (!outcome.problems.empty()) return outcome;
  auto record = open_for(Use::change, request.path, outcome);
  if (!record) return outcome;
  const auto setup = got(find<rec::Setup>(*record, request.typed), outcome);
  if (!setup) return outcome;
  if (!state)
    if (const auto now = got(rec::state_in_force(*record, setup->thing, request.at), outcome)) state = now->state;
  if (!state) return outcome;
  Fields().knobs(*state, true).take(words);
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  rec::StepOptions options;
  options.reason = request.reason;
  options.at = request.at;
  if (const auto step = got(rec::by_hand(*record, setup->thing, *state, options), outcome))
    outcome.out = step_told(*record, *step, true, request.as_json);
  return outcome;
}

void declare_common(Words& words) {
  words.declare("--reason", "WORDS", "Why");
  declare_at(words, "When it was so (now)");
  declare_record(words);
  words.declare_flag("--json", "One JSON document instead of text");
}

}  // namespace

Command record_amend_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "amend", "Puts right what the record says of a thing", amend_footer);
  words->declare_word("NAME|ID", "A printer, material, spool, caliper or setup");
  words->declare_settings("--set", "NAME=VALUE", "What is different; may be given again");
  declare_common(*words);
  return {std::move(words), run_amend};
}

Command record_end_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "end", "Takes a thing off the lists", end_footer);
  words->declare_word("NAME|ID", "A printer, material, spool, caliper or setup");
  declare_common(*words);
  return {std::move(words), run_end};
}

Command record_change_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "change", "Keeps settings that were changed by hand", change_footer);
  words->declare_word("SETUP", "A setup of the record");
  words->declare_settings("--set", "NAME=VALUE",
                          "A setting (docs/formats.md, state), as size_factor or steps_per_mm.x; may be given again");
  words->declare("--state", "STATE.json", "All settings as they are now, instead");
  declare_common(*words);
  return {std::move(words), run_change};
}

}  // namespace fitw
