#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/number.hpp"
#include "bench/bench_view.hpp"
#include "bench/shown.hpp"
#include "report/correct_report.hpp"
#include "report/wording.hpp"

namespace fitwright {
namespace {

constexpr std::array<int, 3> lengths_mm{20, 100, 200};
constexpr int effect_decimals = 2;  // what a caliper shows

/// "Shrink only", and what it does.
PolicyChoice choice(Policy policy) {
  std::string title(word(policy));
  std::replace(title.begin(), title.end(), '-', ' ');
  return {policy, capitalised(title), capitalised(policy_in_words(policy)) + '.'};
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
  for (const int length : lengths_mm) {
    const auto effect = change.effect_mm.find(length);
    const bool told = effect != change.effect_mm.end();
    row.effects.push_back(told ? shown_signed(effect->second, effect_decimals) : std::string());
    row.effects_mm.push_back(told ? effect->second : 0);
  }
  return row;
}

bool is_steps(const Change& change) { return change.knob.starts_with("steps_per_mm"); }

void fill(CorrectionsView& view, const Correction& correction) {
  std::vector<Change> changes = correction.changes;  // steps last: the caution about them stands right below
  std::stable_partition(changes.begin(), changes.end(), [](const Change& change) { return !is_steps(change); });
  for (const Change& change : changes) {
    view.rows.push_back(row_of(change));
    for (const double mm : view.rows.back().effects_mm)
      view.effect_reach_mm = std::max(view.effect_reach_mm, std::abs(mm));
  }
  view.headline =
      view.rows.empty() ? "Nothing to change" : "Change " + counted(view.rows.size(), "setting", "settings");
  for (const LeftAlone& left : correction.left_alone)
    view.left_alone.push_back({capitalised(knob_name(left.knob)), typeset(capitalised(left.because))});
  for (const bool slots : {false, true})
    for (const auto& [place, remains] : correction.remains_mm) {
      if (place.starts_with("slot") != slots) continue;
      view.remains.push_back(
          {capitalised(place_in_words(place)),
           typeset(plus_minus_half(remains.value, remains.u, remains.upper - remains.value) + " mm")});
    }
  for (const std::string& caution : correction.cautions) view.cautions.push_back(typeset(caution));
  view.commands = correction.commands;
}

constexpr const char* unchanged = "\u2013";

/// The policies side by side: what each would set, and what each would leave.
PolicyTable compared(const Analysis& analysis) {
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
                               ? shown_signed(left->second.value, effect_decimals)
                               : unchanged);
    }
    table.remains.push_back(std::move(row));
  }
  return table;
}

std::string recommended_words(const Analysis& analysis) {
  if (analysis.corrections.empty()) return {};
  const Recommendation& r = analysis.recommended;
  return (r.policy ? "Recommended: " + folded(choice(*r.policy).title) + ". " : std::string("Nothing to change. ")) +
         typeset(r.because);
}

}  // namespace

CorrectionsView corrections_view(const Content& content, const Analysis& analysis) {
  CorrectionsView view;
  for (const int length : lengths_mm) view.lengths.push_back(std::to_string(length));
  view.effects_title = "mm more on a length of";
  view.compared = compared(analysis);
  view.recommended = recommended_words(analysis);
  for (const Policy policy : offered_policies()) {
    if (policy == content.wishes.policy) view.chosen = view.choices.size();
    view.choices.push_back(choice(policy));
  }
  if (view.chosen >= analysis.corrections.size()) {
    view.headline = "Nothing to correct yet";
    view.problems = {"The settings to change will stand here, once the readings carry an estimate."};
    return view;
  }
  const Result<Correction>& outcome = analysis.corrections[view.chosen].outcome;
  if (outcome) {
    fill(view, *outcome);
    return view;
  }
  view.headline = "This policy cannot be followed yet";
  for (const Problem& problem : outcome.problems()) view.problems.push_back(typeset(problem.text()));
  return view;
}

}  // namespace fitwright
