// The steps in the life of a correction that change what is in force.

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "base/number.hpp"
#include "base/words.hpp"
#include "correct/advice.hpp"
#include "correct/algebra.hpp"
#include "correct/phrase.hpp"
#include "record/acting_twice.hpp"
#include "record/life.hpp"

namespace fitwright::record {
namespace {

constexpr int ratio_decimals = 6;
constexpr double least_ratio = 1e-6;  // less is not seen at these decimals

Problem refused(const std::string& what, const std::string& remedy) { return {Code::unanswerable, {}, what, remedy}; }

/// The settings of all setups of the printer that a setup belongs to.
struct Bench {
  Kept<Setup> setup;
  SettingsHistory history;
  std::map<Id, StateInForce> states;
};

Result<Bench> bench_of(Record& record, const Id& setup) {
  auto kept = one<Setup>(record, setup);
  if (!kept) return kept.problems();
  auto history = settings_history(record, kept->value.printer);
  if (!history) return history.problems();
  auto states = replay(*history);
  return Bench{std::move(*kept), std::move(*history), std::move(states)};
}

/// When a step is dated: after all that happened before.
Result<std::string> date_of(const Bench& bench, const CorrectionLife* life, const std::string& wished) {
  std::string last = life ? life->correction.at : std::string();
  if (life)
    for (const auto& event : life->events) last = std::max(last, event.at);
  if (!bench.history.events.empty()) last = std::max(last, bench.history.events.back().at);
  if (wished.empty()) return std::max(now_utc(), last.empty() ? last : just_after(last));
  if (wished < last)
    return Problem{Code::usage,
                   {},
                   wished + " is before the last change of this printer's settings or of this correction, " + last,
                   "settings are kept in the order in which they were changed: give a later time, or none"};
  return wished == last ? just_after(last) : wished;
}

Result<Done> add_event(Record& record, const Id& correction, const std::string& what, const std::string& reason,
                       const std::string& at) {
  CorrectionEvent event;
  event.correction = correction;
  event.what = what;
  event.reason = reason;
  const auto kept = add(record, event, at);
  if (!kept) return kept.problems();
  return Done{};
}

/// Re-expressions of a setup that wait to be applied.
Result<std::vector<CorrectionLife>> waiting(Record& record, const Id& setup) {
  auto lives = corrections_of(record, setup);
  if (!lives) return lives.problems();
  std::vector<CorrectionLife> out;
  for (CorrectionLife& life : *lives)
    if (life.standing == Standing::proposed && life.correction.value.origin == "re-expression")
      out.push_back(std::move(life));
  return out;
}

/// Proposes what is due, takes back what no longer is, and tells both.
Result<std::vector<Reexpression>> settle(Record& record, const Bench& was, const Bench& is, const std::string& at) {
  std::vector<Reexpression> out;
  for (const auto& setup : is.history.setups) {
    if (setup.ended) continue;
    const StateInForce& now = is.states.at(setup.id);
    auto open = waiting(record, setup.id);
    if (!open) return open.problems();
    Reexpression told{setup.id, setup.name, false, {}, now.state, now.due ? now.due->becomes : now.state};
    for (const CorrectionLife& life : *open) {
      const StoredCorrection& c = life.correction.value;
      if (now.due && c.before == to_json(told.before) && c.after == to_json(told.after)) {
        told.correction = life.correction.thing;
        continue;
      }
      const auto taken = add_event(record, life.correction.thing, "withdrawn",
                                   now.due ? "the settings changed again: another one takes its place"
                                           : "no longer needed: steps and size factor go together again",
                                   at);
      if (!taken) return taken.problems();
    }
    if (now.due && told.correction.empty()) {
      StoredCorrection c;
      c.setup = setup.id;
      c.origin = "re-expression";
      c.before = to_json(told.before);
      c.after = to_json(told.after);
      c.detail = nlohmann::ordered_json{{"because_of", now.due->because_of.text}}.dump();
      const auto kept = add(record, c, at);
      if (!kept) return kept.problems();
      const auto event = add_event(record, kept->thing, "proposed", now.notes.empty() ? "" : now.notes.back(), at);
      if (!event) return event.problems();
      told.correction = kept->thing;
    }
    const auto before = was.states.find(setup.id);
    const bool turned = before == was.states.end() || before->second.state.steps_per_mm.x != now.state.steps_per_mm.x ||
                        before->second.state.steps_per_mm.y != now.state.steps_per_mm.y;
    told.stale = now.stale && turned;
    if (told.stale || now.due) out.push_back(std::move(told));
  }
  return out;
}

/// What has to be set, and what to take care of: from what was in force to what is.
void add_advice(StepTaken& step, const StateInForce& was, const std::vector<std::string>& of_old, bool prints_again) {
  Correction c;
  c.before = was.state;
  c.after = step.now.state;
  for (const auto& [knob, a, b] : differences(c.before, c.after)) {
    step.knobs.push_back({knob, a, b});
    Change change;
    change.knob = knob;
    change.old_value = a;
    change.new_value = b;
    if (prints_again) c.changes.push_back(change);  // only then is there a proof print to speak of
  }
  step.commands = commands_for(c, false);
  step.cautions = cautions_for(c, Estimates{}, {});
  for (const std::string& text : of_old)
    if (std::find(step.cautions.begin(), step.cautions.end(), text) == step.cautions.end())
      step.cautions.push_back(text);
  for (const Reexpression& other : step.others) {
    if (other.stale)
      step.cautions.push_back(
          said("{} prints on the same machine and was never calibrated: what was read of it with the "
               "old steps does not hold any more.",
               other.setup_name));
    else
      step.cautions.push_back(
          said("{} was calibrated with other steps: set its size factor to {} too ({} now), or its "
               "parts come out wrong. Its re-expression is proposed.",
               other.setup_name, said_fixed(other.after.size_factor, 5), said_fixed(other.before.size_factor, 5)));
  }
  const double rho = std::sqrt(steps_ratio(c.before.steps_per_mm.x, c.after.steps_per_mm.x) *
                               steps_ratio(c.before.steps_per_mm.y, c.after.steps_per_mm.y));
  if (prints_again && std::abs(rho - 1) > least_ratio)
    step.notes.push_back(
        said("Materials that print on this machine and are not in this record: divide their size factor and outline "
             "offset by {} too.",
             said_fixed(rho, ratio_decimals)));
  for (const std::string& note : step.now.notes)
    if (std::find(was.notes.begin(), was.notes.end(), note) == was.notes.end()) step.notes.push_back(note);
}

/// The step after its events are written: everything that follows.
Result<StepTaken> followed_up(Record& record, const Bench& was, const Id& correction, const std::string& at,
                              const std::vector<std::string>& cautions, bool prints_again) {
  const Id setup = was.setup.thing;
  const auto is = bench_of(record, setup);
  if (!is) return is.problems();
  auto others = settle(record, was, *is, at);
  if (!others) return others.problems();
  auto life = life_of(record, correction);
  if (!life) return life.problems();
  StepTaken step;
  step.life = std::move(*life);
  step.now = is->states.at(setup);
  step.others = std::move(*others);
  add_advice(step, was.states.at(setup), cautions, prints_again);
  return step;
}

std::string already(Standing standing) {
  switch (standing) {
    case Standing::proposed:
      return "this correction is only proposed";
    case Standing::applied:
      return "this correction is applied already";
    case Standing::proved:
      return "this correction is applied and proved already";
    case Standing::withdrawn:
      return "this correction was withdrawn";
  }
  return {};
}

/// Why a correction must not be put in force now; empty when it may.
Problems objections(const Correction& c, const StateInForce& now, bool force) {
  if (const auto twice = acts_twice(c.before, c.after, now.state))
    return {refused("this correction would act a second time on " + twice->error + ": since its coupon was printed, " +
                        in_words(differences(now.state, c.before)) + " came into force, and it turns " +
                        in_words(differences(c.after, c.before)) + " for the same error",
                    "print the coupon with the settings in force, and estimate from that")};
  const auto differing = differences(c.before, now.state);
  if (differing.empty() || force) return {};
  return {refused("this correction was made for other settings than are in force: " + in_words(differing),
                  "print the coupon with the settings in force and estimate from that, or set them back; or force it, "
                  "if you know that they do not matter here")};
}

Result<StepTaken> applied(Record& record, const Id& correction, const StepOptions& options, bool keep) {
  return guarded(record, [&]() -> Result<StepTaken> {
    Transaction whole(record.database());
    const auto life = life_of(record, correction);
    if (!life) return life.problems();
    if (life->standing != Standing::proposed)
      return refused(already(life->standing), life->standing == Standing::withdrawn
                                                  ? "estimate the setup again and propose a new one"
                                                  : "prove it by a print, or withdraw it");
    const auto content = correction_from(life->correction.value);
    if (!content) return content.problems();
    const auto was = bench_of(record, life->correction.value.setup);
    if (!was) return was.problems();
    const StateInForce& now = was->states.at(was->setup.thing);
    if (Problems problems = objections(*content, now, options.force); !problems.empty()) return problems;
    const auto at = date_of(*was, &*life, options.at);
    if (!at) return at.problems();
    const auto event = add_event(record, correction, "applied", options.reason, *at);
    if (!event) return event.problems();
    const bool as_foreseen = differences(content->before, now.state).empty();
    auto step =
        followed_up(record, *was, correction, *at, as_foreseen ? content->cautions : std::vector<std::string>{}, true);
    if (step && keep) whole.commit();
    return step;
  });
}

/// Corrections applied later that were made with this one in force.
std::vector<std::string> resting_on(const Bench& bench, const Id& correction) {
  const StateInForce& now = bench.states.at(bench.setup.thing);
  const auto place = std::find(now.corrections.begin(), now.corrections.end(), correction);
  if (place == now.corrections.end() || place + 1 == now.corrections.end()) return {};
  return {
      "Corrections applied after this one were made from prints with it in force: withdraw the later ones first, or "
      "print and estimate again."};
}

Result<StepTaken> withdrawn(Record& record, const Id& correction, const StepOptions& options, bool keep) {
  return guarded(record, [&]() -> Result<StepTaken> {
    Transaction whole(record.database());
    const auto life = life_of(record, correction);
    if (!life) return life.problems();
    if (life->standing == Standing::withdrawn)
      return refused("this correction was withdrawn already", "there is nothing to do");
    const auto was = bench_of(record, life->correction.value.setup);
    if (!was) return was.problems();
    const auto at = date_of(*was, &*life, options.at);
    if (!at) return at.problems();
    const auto event = add_event(record, correction, "withdrawn", options.reason, *at);
    if (!event) return event.problems();
    auto step = followed_up(record, *was, correction, *at, {}, false);
    if (!step) return step;
    for (const std::string& text : resting_on(*was, correction)) step->notes.push_back(text);
    if (keep) whole.commit();
    return step;
  });
}

/// Without the ids of what was not kept.
Result<StepTaken> looked_at(Result<StepTaken> step) {
  if (step)
    for (Reexpression& other : step->others) other.correction = {};
  return step;
}

}  // namespace

Result<StepTaken> apply(Record& record, const Id& correction, const StepOptions& options) {
  return applied(record, correction, options, true);
}

Result<StepTaken> look_at_applying(Record& record, const Id& correction, const StepOptions& options) {
  return looked_at(applied(record, correction, options, false));
}

Result<StepTaken> withdraw(Record& record, const Id& correction, const StepOptions& options) {
  return withdrawn(record, correction, options, true);
}

Result<StepTaken> look_at_withdrawing(Record& record, const Id& correction, const StepOptions& options) {
  return looked_at(withdrawn(record, correction, options, false));
}

Result<StepTaken> by_hand(Record& record, const Id& setup, const State& after, const StepOptions& options) {
  return guarded(record, [&]() -> Result<StepTaken> {
    Transaction whole(record.database());
    const auto was = bench_of(record, setup);
    if (!was) return was.problems();
    const State& before = was->states.at(setup).state;
    if (differences(before, after).empty())
      return Problem{
          Code::usage, {}, "these settings are in force already: nothing was changed", "give the new values"};
    if (const auto sound = parse_state(to_json(after), "the new settings"); !sound) return sound.problems();
    const auto at = date_of(*was, nullptr, options.at);
    if (!at) return at.problems();
    StoredCorrection c;
    c.setup = setup;
    c.origin = "by hand";
    c.before = to_json(before);
    c.after = to_json(after);
    const auto kept = add(record, c, *at);
    if (!kept) return kept.problems();
    const auto event = add_event(record, kept->thing, "applied", options.reason, *at);
    if (!event) return event.problems();
    auto step = followed_up(record, *was, kept->thing, *at, {}, true);
    if (step) whole.commit();
    return step;
  });
}

}  // namespace fitwright::record
