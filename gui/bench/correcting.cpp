#include "bench/correcting.hpp"

#include <algorithm>
#include <memory>

#include "base/number.hpp"
#include "bench/shown.hpp"
#include "correct/finding.hpp"
#include "record/kept_estimate.hpp"
#include "report/correct_report.hpp"
#include "report/estimate_report.hpp"
#include "report/wording.hpp"

namespace fitwright {
namespace {

using record::Id;

constexpr int step_decimals = 4;  ///< enough for steps per mm and factors: 1e-4 of 100 mm is what a caliper shows

std::string number(double value) {
  std::string text = fixed(value, step_decimals);
  while (text.ends_with('0')) text.pop_back();
  if (text.ends_with('.')) text.pop_back();
  return text;
}

std::string turned(const record::KnobTurned& knob) {
  return typeset(capitalised(knob_name(knob.knob)) + ": " + number(knob.old_value) + " \u2192 " +
                 number(knob.new_value));
}

Problem no_setup() { return {Code::usage, {}, "no setup is on the bench", "choose one under Setup"}; }

Applying applying_from(const record::StepTaken& step) {
  Applying out;
  out.correction = step.life.correction.thing;
  for (const record::KnobTurned& knob : step.knobs) out.knobs.push_back(turned(knob));
  out.cautions = step.cautions;
  out.commands = step.commands;
  for (const record::Reexpression& other : step.others)
    out.others.push_back(
        other.stale ? other.setup_name + " was never calibrated; nothing read on it before counts any more."
                    : other.setup_name + " gets a correction of its own for the new steps, to be applied in its turn.");
  for (const std::string& note : step.notes) out.others.push_back(note);
  return out;
}

/// What is proposed again when a step is done again: a correction that was withdrawn stays so.
struct Again {
  Id setup, estimate, present;
  Correction correction;
};

Result<Done> apply_again(record::Record& record, Again& again) {
  auto life = record::propose(record, again.setup, again.estimate, again.correction, "done again");
  if (!life) return life.problems();
  again.present = life->correction.thing;
  auto step = record::apply(record, again.present, {});
  if (!step) return step.problems();
  return Done{};
}

Result<Done> take_back(record::Record& record, const Again& again) {
  auto step = record::withdraw(record, again.present, {.reason = "taken back", .at = {}});
  if (!step) return step.problems();
  return Done{};
}

Result<std::shared_ptr<Again>> again_of(record::Record& record, const Id& id) {
  auto life = record::life_of(record, id);
  if (!life) return life.problems();
  auto correction = record::correction_from(life->correction.value);
  if (!correction) return correction.problems();
  return std::make_shared<Again>(
      Again{life->correction.value.setup, life->correction.value.estimate, id, *std::move(correction)});
}

}  // namespace

Result<std::vector<LifeRow>> life_rows(Bench& bench) {
  std::vector<LifeRow> rows;
  if (!bench.setup()) return rows;
  auto lives = record::corrections_of(bench.record(), bench.setup()->setup.thing);
  if (!lives) return lives.problems();
  for (const record::CorrectionLife& life : *lives) {
    LifeRow row;
    row.correction = life.correction.thing;
    constexpr std::size_t date = 10;
    row.when = (life.events.empty() ? life.correction.at : life.events.back().at).substr(0, date);
    row.why = life.events.empty() ? std::string() : life.events.back().value.reason;
    if (const auto correction = record::correction_from(life.correction.value))
      for (const record::KnobDifference& d : record::differences(correction->before, correction->after))
        row.what += (row.what.empty() ? "" : ", ") + knob_name(d.knob) + " " + number(d.a) + " \u2192 " + number(d.b);
    row.what = typeset(capitalised(row.what));
    row.standing = record::word(life.standing);
    using record::Standing;
    row.can_apply = life.standing == Standing::proposed;
    row.can_prove = life.standing == Standing::applied;
    row.can_withdraw = life.standing != Standing::withdrawn;
    rows.push_back(std::move(row));
  }
  std::reverse(rows.begin(), rows.end());
  return rows;
}

Result<Applying> prepare_applying(Bench& bench, Policy policy, const std::string& program) {
  if (!bench.setup()) return no_setup();
  const Id setup = bench.setup()->setup.thing;
  const Wishes& wishes = bench.document().content().wishes;
  record::EstimateSetupOptions how;
  how.estimate.set_suspects_aside = wishes.set_suspects_aside;
  how.estimate.use_priors = wishes.use_priors;
  auto estimated = record::estimate_setup(bench.record(), setup, how);
  if (!estimated) return estimated.problems();
  CorrectOptions options;
  options.policy = policy;
  options.length_mm = wishes.length_mm;
  options.tolerance_mm = wishes.tolerance_mm;
  options.beyond = beyond_readings(estimated->estimates, estimated->from.readings);
  const auto correction = correct(estimated->estimates, estimated->from.printed_with, options);
  if (!correction) return correction.problems();
  if (correction->changes.empty())
    return Problem{Code::unanswerable, {}, "this policy changes nothing", "leave the settings as they are"};
  FindingOptions wanted;
  wanted.length_mm = wishes.length_mm;
  wanted.tolerance_mm = wishes.tolerance_mm;
  wanted.state = estimated->from.printed_with;
  const auto& readings = estimated->from.readings;
  auto kept = record::keep_estimate(
      bench.record(), *estimated,
      estimate_json(estimated->estimates, readings, findings(estimated->estimates, readings, wanted)), program);
  if (!kept) return kept.problems();
  auto life = record::propose(bench.record(), setup, kept->thing, *correction);
  if (!life) return life.problems();
  return prepare_applying(bench, life->correction.thing);
}

Result<Applying> prepare_applying(Bench& bench, const Id& proposed) {
  const auto step = record::look_at_applying(bench.record(), proposed);
  if (!step) return step.problems();
  return applying_from(*step);
}

Result<Done> apply_now(Bench& bench, const Id& proposed) {
  auto step = record::apply(bench.record(), proposed, {});
  if (!step) return step.problems();
  auto again = again_of(bench.record(), proposed);
  if (!again) return again.problems();
  record::Record& record = bench.record();
  bench.made({"applying a correction", [again = *again, &record] { return take_back(record, *again); },
              [again = *again, &record] { return apply_again(record, *again); }});
  return bench.look_again();
}

Result<Done> withdraw_now(Bench& bench, const Id& correction, const std::string& reason) {
  if (folded(reason).empty())
    return Problem{Code::usage, {}, "a withdrawal needs its reason", "say in a few words why"};
  auto again = again_of(bench.record(), correction);
  if (!again) return again.problems();
  auto life = record::life_of(bench.record(), correction);
  if (!life) return life.problems();
  const bool was_in_force = life->standing != record::Standing::proposed;
  auto step = record::withdraw(bench.record(), correction, {.reason = reason, .at = {}});
  if (!step) return step.problems();
  record::Record& record = bench.record();
  bench.made({"withdrawing a correction",
              [again = *again, was_in_force, &record]() -> Result<Done> {
                if (was_in_force) return apply_again(record, *again);
                auto proposed = record::propose(record, again->setup, again->estimate, again->correction, "done again");
                if (!proposed) return proposed.problems();
                again->present = proposed->correction.thing;
                return Done{};
              },
              [again = *again, &record] { return take_back(record, *again); }});
  return bench.look_again();
}

Result<std::vector<std::string>> prove_now(Bench& bench, const Id& correction) {
  const auto proved = record::prove(bench.record(), correction);
  if (!proved) return proved.problems();
  const record::Proof& proof = proved->proof;
  std::vector<std::string> lines{typeset(proof.text)};
  for (const record::ProofPlace& place : proof.places)
    lines.push_back(typeset(capitalised(place_in_words(place.place)) + ": foretold " +
                            shown_signed(place.foretold_mm, 2) + ", measured " + shown_signed(place.measured_mm, 2) +
                            " mm, to be within " + shown(place.half_mm, 2) +
                            (place.inside ? ": it is" : ": it is not")));
  lines.push_back(typeset(capitalised(proof.because) + ". " + capitalised(proof.action) + "."));
  return lines;
}

}  // namespace fitwright
