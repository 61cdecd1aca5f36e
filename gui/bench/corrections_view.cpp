#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/bench_view.hpp"
#include "bench/shown.hpp"
#include "correct/advice.hpp"
#include "correct/total_effect.hpp"
#include "report/correct_report.hpp"
#include "report/wording.hpp"

namespace fitwright {
namespace {

constexpr int effect_decimals = 2;  // what a caliper shows

/// "shrink only"
std::string name_of(Policy policy) {
  switch (policy) {
    case Policy::shrink:
      return tr("shrink");
    case Policy::steps:
      return tr("steps");
    case Policy::machine:
      return tr("machine");
    case Policy::shrink_only:
      return tr("shrink only");
  }
  return {};
}

/// "Shrink only", and what it does.
PolicyChoice choice(Policy policy) {
  return {policy, capitalised(name_of(policy)), capitalised(policy_in_words(policy)) + '.'};
}

ChangeRow row_of(const Change& change) {
  ChangeRow row;
  row.knob = capitalised(knob_name(change.knob));
  const ValueAndU next = value_and_u(change.new_value, change.u);
  row.now = shown(change.old_value, next.decimals);
  row.next = shown(change.new_value, next.decimals);
  row.u = next.u;
  row.copied = fixed(change.new_value, next.decimals);
  row.because = typeset(capitalised(change.because));
  if (change.knob == "size_factor") row.forms = typeset(size_factor_forms(change.new_value));
  for (const int length : effect_lengths_mm) {
    const auto effect = change.effect_mm.find(length);
    const bool told = effect != change.effect_mm.end();
    row.effects.push_back(told ? shown_signed(effect->second, effect_decimals) : std::string());
    row.effects_mm.push_back(told ? effect->second : 0);
  }
  return row;
}

constexpr const char* steps_command = "M92";  ///< the machine's own word for steps per mm

bool is_steps(const Change& change) { return change.knob.starts_with("steps_per_mm"); }

void fill(CorrectionsView& view, const Correction& correction) {
  std::vector<Change> changes = correction.changes;  // steps last: the caution about them stands right below
  std::stable_partition(changes.begin(), changes.end(), [](const Change& change) { return !is_steps(change); });
  for (const Change& change : changes) {
    view.rows.push_back(row_of(change));
    for (const double mm : view.rows.back().effects_mm)
      view.effect_reach_mm = std::max(view.effect_reach_mm, std::abs(mm));
  }
  // The machine takes all its steps in one line; cautions about them stand at the first of their rows.
  const std::vector<std::string> of_steps = steps_cautions(correction);
  bool first = true;
  for (std::size_t i = 0; i < changes.size(); ++i) {
    if (!is_steps(changes[i])) continue;
    if (!correction.commands.empty() && correction.commands.front().starts_with(steps_command))
      view.rows[i].copied = correction.commands.front();
    if (first)
      for (const std::string& caution : of_steps) view.rows[i].cautions.push_back(typeset(caution));
    first = false;
  }
  view.headline = view.rows.empty() ? tr("Nothing to change")
                                    : said_many("Change {} setting", "Change {} settings", view.rows.size());
  for (const LeftAlone& left : correction.left_alone)
    view.left_alone.push_back({capitalised(knob_name(left.knob)), typeset(capitalised(left.because))});
  for (const bool slots : {false, true})
    for (const auto& [place, remains] : correction.remains_mm) {
      if (place.starts_with("slot") != slots) continue;
      view.remains.push_back(
          {capitalised(place_in_words(place)),
           typeset(plus_minus_half(remains.value, remains.u, remains.upper - remains.value) + " mm")});
    }
  for (const std::string& caution : correction.cautions)
    if (std::find(of_steps.begin(), of_steps.end(), caution) == of_steps.end())
      view.cautions.push_back(typeset(caution));
  view.commands = correction.commands;
}

constexpr const char* unchanged = "\u2013";

/// Longer than now, under every policy. X and Y share a row where no policy tells them apart.
void add_effects(PolicyTable& table, const Analysis& analysis) {
  bool any = false;
  for (const int length : effect_lengths_mm) {
    std::array<EffectRow, 2> rows{EffectRow{said("{} mm along X", length), {}, {}},
                                  EffectRow{said("{} mm along Y", length), {}, {}}};
    for (const PolicyOutcome& o : analysis.corrections)
      for (std::size_t axis = 0; axis < rows.size(); ++axis) {
        const auto effect = o.outcome ? total_effect_mm(*o.outcome, axis == 0 ? 'x' : 'y', length) : std::nullopt;
        rows[axis].values.push_back(effect ? shown_signed(*effect, effect_decimals) : std::string(unchanged));
        rows[axis].mm.push_back(effect.value_or(0));
        table.effect_reach_mm = std::max(table.effect_reach_mm, std::abs(effect.value_or(0)));
        any = any || effect.value_or(0) != 0;
      }
    const bool alike = rows[0].values == rows[1].values;
    if (alike) rows[0].name = said("{} mm", length);
    table.effects.push_back(std::move(rows[0]));
    if (!alike) table.effects.push_back(std::move(rows[1]));
  }
  if (!any) table.effects.clear();
}

/// What the intervals become with temperature and jaw force, which are the same in all readings.
std::string beyond_words(const Analysis& analysis, Policy chosen) {
  for (const PolicyOutcome& o : analysis.corrections) {
    if (o.policy != chosen || !o.outcome) continue;
    std::string halves;
    for (const char* place : {"x100", "slot_x20"}) {
      const auto left = o.outcome->remains_mm.find(place);
      if (left == o.outcome->remains_mm.end() || !(left->second.half_with_surroundings_mm > 0)) continue;
      const std::string half = shown(left->second.half_with_surroundings_mm, effect_decimals);
      halves += (halves.empty() ? "" : ", ") + said("\u00b1 {} mm {}", half, place_in_words(place));
    }
    if (!halves.empty())
      return typeset(said("\u00b1 is what the readings show. With temperature of the part and jaw force: {}.", halves));
  }
  return {};
}

/// The policies side by side: what each would set, and what each would leave.
PolicyTable compared(const Analysis& analysis, Policy chosen) {
  PolicyTable table;
  std::vector<std::string> knobs, places;
  const auto note = [](std::vector<std::string>& all, const std::string& name) {
    if (std::find(all.begin(), all.end(), name) == all.end()) all.push_back(name);
  };
  for (const PolicyOutcome& o : analysis.corrections) {
    table.columns.push_back({choice(o.policy).title, analysis.recommended.policy == o.policy, o.outcome.ok()});
    if (!o.outcome) continue;
    for (const Change& change : o.outcome->changes)
      if (!is_steps(change)) note(knobs, change.knob);
    for (const auto& [place, remains] : o.outcome->remains_mm) note(places, place);
  }
  for (const PolicyOutcome& o : analysis.corrections)
    if (o.outcome)
      for (const Change& change : o.outcome->changes) note(knobs, change.knob);  // steps last
  for (const std::string& knob : knobs) {
    ComparedRow row{capitalised(knob_name(knob)), {}, {}};
    for (const PolicyOutcome& o : analysis.corrections) {
      std::string value = unchanged;
      if (o.outcome)
        for (const Change& change : o.outcome->changes)
          if (change.knob == knob) {
            const int decimals = value_and_u(change.new_value, change.u).decimals;
            value = shown(change.new_value, decimals);
            row.now = shown(change.old_value, decimals);
          }
      row.values.push_back(value);
    }
    table.knobs.push_back(std::move(row));
  }
  std::stable_partition(places.begin(), places.end(), [](const std::string& p) { return !p.starts_with("slot"); });
  for (const std::string& place : places) {
    ComparedRow row{capitalised(place_in_words(place)), {}, {}};
    for (const PolicyOutcome& o : analysis.corrections) {
      const auto left =
          o.outcome ? o.outcome->remains_mm.find(place) : std::map<std::string, Remains>::const_iterator{};
      row.values.push_back(o.outcome && left != o.outcome->remains_mm.end()
                               ? typeset(shown_signed(left->second.value, effect_decimals) + " \u00b1 " +
                                         shown(left->second.upper - left->second.value, effect_decimals))
                               : unchanged);
    }
    table.remains.push_back(std::move(row));
  }
  add_effects(table, analysis);
  table.beyond = beyond_words(analysis, chosen);
  return table;
}

std::string recommended_words(const Analysis& analysis) {
  if (analysis.corrections.empty()) return {};
  const Recommendation& r = analysis.recommended;
  if (!r.policy) return typeset(r.because);  // "Nothing to change" stands above it
  return said("Recommended: {}. {}", name_of(*r.policy), typeset(r.because));
}

}  // namespace

CorrectionsView corrections_view(const Content& content, const Analysis& analysis) {
  CorrectionsView view;
  for (const int length : effect_lengths_mm) view.lengths.push_back(std::to_string(length));
  view.effects_title = tr("mm more on a length of");
  view.compared = compared(analysis, content.wishes.policy);
  view.recommended = recommended_words(analysis);
  view.nothing = !analysis.corrections.empty() && !analysis.recommended.policy;
  for (const Policy policy : offered_policies()) {
    if (policy == content.wishes.policy) view.chosen = view.choices.size();
    view.choices.push_back(choice(policy));
  }
  if (view.chosen >= analysis.corrections.size()) {
    view.headline = tr("Nothing to correct yet");
    view.problems = {tr("The settings to change will stand here, once the readings carry an estimate.")};
    return view;
  }
  const Result<Correction>& outcome = analysis.corrections[view.chosen].outcome;
  if (outcome) {
    fill(view, *outcome);
    const Policy chosen = analysis.corrections[view.chosen].policy;
    if (!view.rows.empty() && analysis.recommended.policy && *analysis.recommended.policy != chosen)
      view.headline =
          said_many("With {1}: change {0} setting", "With {1}: change {0} settings", view.rows.size(), name_of(chosen));
    return view;
  }
  view.headline = tr("This policy cannot be followed yet");
  for (const Problem& problem : outcome.problems()) view.problems.push_back(typeset(problem.text()));
  return view;
}

}  // namespace fitwright
