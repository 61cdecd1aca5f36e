#include "bench/correcting.hpp"

#include <algorithm>
#include <memory>

#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/shown.hpp"
#include "correct/advice.hpp"
#include "correct/finding.hpp"
#include "record/axes_known.hpp"
#include "record/kept_estimate.hpp"
#include "report/correct_report.hpp"
#include "report/estimate_report.hpp"
#include "report/wording.hpp"

namespace fitwright {
namespace {

using record::Id;

constexpr int step_decimals = 4;  ///< enough for steps per mm and factors: 1e-4 of 100 mm is what a caliper shows

std::string number(double value) {
  std::string text = said_fixed(value, step_decimals);
  while (text.ends_with('0')) text.pop_back();
  if (text.ends_with(decimal_sign())) text.pop_back();
  return text;
}

std::string turned(const record::KnobTurned& knob) {
  return typeset(capitalised(knob_name(knob.knob)) + ": " + number(knob.old_value) + " \u2192 " +
                 number(knob.new_value));
}

Problem no_setup() { return {Code::usage, {}, tr("no setup is on the bench"), tr("choose one under Setup")}; }

/// Texts of a correction as the record keeps them, in the chosen language where they can be said anew.
std::vector<std::string> said_anew(const std::vector<std::string>& kept,
                                   const std::function<std::vector<std::string>()>& say) {
  std::vector<std::string> as_kept;
  {
    const InFileWords plain;
    as_kept = say();
  }
  const std::vector<std::string> now = say();
  std::vector<std::string> out;
  for (const std::string& text : kept) {
    const auto same = std::find(as_kept.begin(), as_kept.end(), text);
    const std::string said_now =
        same == as_kept.end() ? std::string(tr(text.c_str())) : now[static_cast<std::size_t>(same - as_kept.begin())];
    if (std::find(out.begin(), out.end(), said_now) == out.end()) out.push_back(said_now);
  }
  return out;
}

Applying applying_from(const record::StepTaken& step) {
  Applying out;
  out.correction = step.life.correction.thing;
  for (const record::KnobTurned& knob : step.knobs) out.knobs.push_back(turned(knob));
  out.cautions = step.cautions;
  out.commands = step.commands;
  if (const auto correction = record::correction_from(step.life.correction.value)) {
    out.cautions = said_anew(step.cautions, [&] { return cautions_for(*correction, Estimates{}, {}); });
    out.commands = said_anew(step.commands, [&] { return commands_for(*correction); });
  }
  for (const record::Reexpression& other : step.others)
    out.others.push_back(
        other.stale
            ? said("{} was never calibrated; nothing read on it before counts any more.", other.setup_name)
            : said("{} gets a correction of its own for the new steps, to be applied in its turn.", other.setup_name));
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

/// What it changes, its steps, and its proof or what is foretold.
void tell_all(LifeRow& row, const record::CorrectionLife& life) {
  const auto correction = record::correction_from(life.correction.value);
  if (correction) {
    for (const record::KnobDifference& d : record::differences(correction->before, correction->after)) {
      row.knobs.push_back(turned({std::string(d.knob), d.a, d.b}));
      if (row.knobs.size() == 1) row.what = number(d.a) + " \u2192 " + number(d.b);
    }
    if (!row.knobs.empty()) {
      const auto first = record::differences(correction->before, correction->after).front();
      row.what = typeset(capitalised(knob_name(std::string(first.knob))) + " " + row.what);
      if (row.knobs.size() > 1)
        row.what = said_many("{1} and {0} more", "{1} and {0} more", row.knobs.size() - 1, row.what);
    }
    row.proof = foretold_plot(*correction);
  }
  for (const auto& event : life.events) {
    constexpr std::size_t date = 10;
    const std::string day = event.at.substr(0, date);
    const std::string& reason = event.value.reason;
    const bool says_it = folded(reason).starts_with(event.value.what);  // "Proved: 100 mm along Y ..."
    row.steps.push_back(typeset(reason.empty() ? said("{} {}", day, tr(event.value.what.c_str()))
                                : says_it      ? said("{} {}", day, tr(reason.c_str()))
                                          : said("{} {}: {}", day, tr(event.value.what.c_str()), tr(reason.c_str()))));
    if (event.value.what == record::word(record::Standing::proved))
      if (const auto proof = record::proof_from(event.value.detail)) row.proof = proof_plot(*proof);
  }
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
    row.why = life.events.empty() ? std::string() : tr(life.events.back().value.reason.c_str());
    tell_all(row, life);
    row.standing = tr(std::string(record::word(life.standing)).c_str());
    using record::Standing;
    row.can_apply = life.standing == Standing::proposed;
    row.can_prove = life.standing == Standing::applied;
    row.can_withdraw = life.standing != Standing::withdrawn;
    rows.push_back(std::move(row));
  }
  std::reverse(rows.begin(), rows.end());
  return rows;
}

namespace {

/// Keeps the estimates and proposes the correction, in the words of the record.
Result<Id> proposed_now(Bench& bench, Policy policy, const std::string& program) {
  const InFileWords for_the_record;
  const Id setup = bench.setup()->setup.thing;
  const Wishes& wishes = bench.document().content().wishes;
  record::EstimateSetupOptions how;
  how.estimate.set_suspects_aside = wishes.set_suspects_aside;
  how.estimate.use_priors = wishes.use_priors;
  auto estimated = record::estimate_setup(bench.record(), setup, how);
  if (!estimated) return estimated.problems();
  const auto axes = record::axes_known(bench.record(), bench.setup()->printer.thing, bench.setup()->in_force);
  if (!axes) return axes.problems();
  CorrectOptions options;
  options.policy = policy;
  options.drive = axes->drive;
  if (policy == Policy::machine) options.travel = axes->travel;
  options.length_mm = wishes.length_mm;
  options.tolerance_mm = wishes.tolerance_mm;
  options.beyond = beyond_readings(estimated->estimates, estimated->from.readings);
  const auto correction = correct(estimated->estimates, estimated->from.printed_with, options);
  if (!correction) return correction.problems();
  if (correction->changes.empty()) return Id{};
  FindingOptions wanted;
  wanted.length_mm = wishes.length_mm;
  wanted.tolerance_mm = wishes.tolerance_mm;
  wanted.state = estimated->from.printed_with;
  wanted.drive = axes->drive;
  const auto& readings = estimated->from.readings;
  auto kept = record::keep_estimate(
      bench.record(), *estimated,
      estimate_json(estimated->estimates, readings, findings(estimated->estimates, readings, wanted)), program);
  if (!kept) return kept.problems();
  auto life = record::propose(bench.record(), setup, kept->thing, *correction);
  if (!life) return life.problems();
  return life->correction.thing;
}

}  // namespace

Result<Applying> prepare_applying(Bench& bench, Policy policy, const std::string& program) {
  if (!bench.setup()) return no_setup();
  const auto proposed = proposed_now(bench, policy, program);
  if (!proposed) return proposed.problems();
  if (proposed->empty())
    return Problem{Code::unanswerable, {}, tr("this policy changes nothing"), tr("leave the settings as they are")};
  return prepare_applying(bench, *proposed);
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
  bench.made({tr("applying a correction"), [again = *again, &record] { return take_back(record, *again); },
              [again = *again, &record] { return apply_again(record, *again); }});
  return bench.look_again();
}

Result<Done> withdraw_now(Bench& bench, const Id& correction, const std::string& reason) {
  if (folded(reason).empty())
    return Problem{Code::usage, {}, tr("a withdrawal needs its reason"), tr("say in a few words why")};
  auto again = again_of(bench.record(), correction);
  if (!again) return again.problems();
  auto life = record::life_of(bench.record(), correction);
  if (!life) return life.problems();
  const bool was_in_force = life->standing != record::Standing::proposed;
  auto step = record::withdraw(bench.record(), correction, {.reason = reason, .at = {}});
  if (!step) return step.problems();
  record::Record& record = bench.record();
  bench.made({tr("withdrawing a correction"),
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

Result<ProofTold> prove_now(Bench& bench, const Id& correction) {
  const auto proved = record::prove(bench.record(), correction);
  if (!proved) return proved.problems();
  const record::Proof& proof = proved->proof;
  ProofTold verdict;
  std::vector<std::string>& lines = verdict.lines;
  lines.push_back(typeset(proof.text));
  for (const record::ProofPlace& place : proof.places)
    lines.push_back(typeset(
        fmt::format(fmt::runtime(place.inside ? tr("{}: foretold {}, measured {} mm, to be within {}: it is")
                                              : tr("{}: foretold {}, measured {} mm, to be within {}: it is not")),
                    capitalised(place_in_words(place.place)), shown_signed(place.foretold_mm, 2),
                    shown_signed(place.measured_mm, 2), shown(place.half_mm, 2))));
  lines.push_back(typeset(capitalised(proof.because) + ". " + capitalised(proof.action) + "."));
  verdict.plot = proof_plot(proof);
  return verdict;
}

}  // namespace fitwright
