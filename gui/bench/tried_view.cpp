#include "bench/tried_view.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/words.hpp"
#include "bench/bench.hpp"
#include "bench/shown.hpp"
#include "report/correct_report.hpp"
#include "report/wording.hpp"

namespace fitwright {
namespace {

constexpr int reading_decimals = 2;  // what a caliper shows

std::string words_of(const Reading& r) {
  return said("{}, copy {}, {} reading: {}", r.feature.id, r.copy, ordinal(r.repeat),
              shown(r.reading_mm, reading_decimals));
}

std::vector<TriedChoice> choices_of(const Content& content, const Analysis& a) {
  std::vector<TriedChoice> choices;
  TriedChoice aside{tr("All that are set aside"), {}};
  TriedChoice counted{tr("All that are doubtful and count"), {}};
  for (const SuspectReading& s : a.estimates->suspects) {
    const Reading& r = content.readings->rows.at(a.row_of.at(s.suspect.index));
    choices.push_back({s.used ? said("{}, doubtful", words_of(r)) : said("{}, set aside", words_of(r)), {key_of(r)}});
    (s.used ? counted : aside).readings.push_back(key_of(r));
  }
  for (TriedChoice& all : std::vector<TriedChoice>{std::move(counted), std::move(aside)})
    if (all.readings.size() > 1) choices.push_back(std::move(all));
  return choices;
}

/// A parameter in its unit, at the decimals that its own uncertainty carries.
struct Told {
  std::string value, half;
};
Told told(const Parameter& p, double per_unit, int decimals) {
  return {shown_signed(p.value * per_unit, decimals), shown((p.upper - p.lower) / 2 * per_unit, decimals)};
}

int decimals_of(const Parameter& p, double per_unit) {
  return value_and_u(p.value * per_unit, p.u * per_unit).decimals;
}

void add_rows(TriedView& view, const Estimates& as_is, const Estimates& tried) {
  std::vector<std::pair<double, TriedRow>> rows;
  std::size_t unchanged = 0;
  const auto add = [&](const std::string& name, const Parameter* before, const Parameter* after) {
    const Wording w = wording(name);
    TriedRow row;
    row.name = capitalised(w.name);
    row.unit = w.unit;
    row.as_is = row.tried = tr("not known");
    if (before) {
      const Told t = told(*before, w.per_unit, decimals_of(*before, w.per_unit));
      row.as_is = t.value;
      row.as_is_half = t.half;
    }
    if (after) {
      const Told t = told(*after, w.per_unit, decimals_of(*after, w.per_unit));
      row.tried = t.value;
      row.tried_half = t.half;
    }
    double weight = HUGE_VAL;  // known on one side only: first
    if (before && after) {
      const double change = after->value - before->value;
      row.change = shown_signed(change * w.per_unit,
                                std::min(decimals_of(*before, w.per_unit), decimals_of(*after, w.per_unit)));
      weight = before->u > 0 ? std::abs(change) / before->u : 0;
      if (row.as_is == row.tried && row.as_is_half == row.tried_half) {
        ++unchanged;
        return;
      }
    }
    rows.emplace_back(weight, std::move(row));
  };
  for (const Parameter& p : as_is.parameters) add(p.name, &p, tried.find(p.name));
  for (const Parameter& p : tried.parameters)
    if (!as_is.find(p.name)) add(p.name, nullptr, &p);
  std::stable_sort(rows.begin(), rows.end(), [](const auto& p, const auto& q) { return p.first > q.first; });
  for (auto& [weight, row] : rows) view.rows.push_back(std::move(row));
  if (unchanged > 0)
    view.others = view.rows.empty()
                      ? said_many("{} parameter stays as it is.", "All {} parameters stay as they are.", unchanged)
                      : said_many("{} other stays as it is.", "{} others stay as they are.", unchanged);
}

/// Findings are the same when they have the same id and weight and are of the same thing, which stands first in their
/// text: what differs between them then are numbers, and those stand in the table.
bool same(const Finding& a, const Finding& b) {
  const auto thing = [](const Finding& f) { return f.text.substr(0, f.text.find(' ')); };
  return a.id == b.id && a.severity == b.severity && thing(a) == thing(b);
}

std::vector<std::string> new_among(const std::vector<Finding>& after, const std::vector<Finding>& before) {
  std::vector<std::string> out;
  for (const Finding& f : after)
    if (std::none_of(before.begin(), before.end(), [&](const Finding& g) { return same(f, g); }))
      out.push_back(typeset(capitalised(f.text)));
  return out;
}

const Correction* chosen_correction(const Content& content, const Analysis& a) {
  for (const PolicyOutcome& o : a.corrections)
    if (o.policy == content.wishes.policy && o.outcome) return &*o.outcome;
  return nullptr;
}

std::string change_words(const Change* change) {
  return change ? knob_shown(change->knob, change->new_value) : std::string(tr("left as it is"));
}

void add_corrections(TriedView& view, const Correction* as_is, const Correction* tried) {
  std::vector<std::string> knobs;
  const auto note = [&](const Correction* c) {
    if (!c) return;
    for (const Change& change : c->changes)
      if (std::find(knobs.begin(), knobs.end(), change.knob) == knobs.end()) knobs.push_back(change.knob);
  };
  note(as_is);
  note(tried);
  const auto of = [](const Correction* c, const std::string& knob) -> const Change* {
    if (!c) return nullptr;
    const auto found =
        std::find_if(c->changes.begin(), c->changes.end(), [&](const Change& x) { return x.knob == knob; });
    return found == c->changes.end() ? nullptr : &*found;
  };
  for (const std::string& knob : knobs) {
    const std::string before = change_words(of(as_is, knob));
    const std::string after = change_words(of(tried, knob));
    if (before != after)
      view.changes.push_back(
          said("{} would be {} instead of {}.", capitalised(knob_name(knob)), typeset(after), typeset(before)));
  }
}

}  // namespace

std::vector<ReadingKey> keys_of_rows(const Content& content, const std::vector<std::size_t>& rows) {
  std::vector<ReadingKey> keys;
  for (const std::size_t row : rows)
    if (row < content.readings->rows.size()) keys.push_back(key_of(content.readings->rows[row]));
  return keys;
}

TriedView tried_view(const Content& content, const Analysis& a) {
  TriedView view;
  view.hint = tr(
      "What a reading decides: choose one here, or a mark in a plot, and press F7. The estimate without it will stand "
      "beside the one with it; no reading is taken out.");
  if (!a.estimates) return view;
  view.choices = choices_of(content, a);
  view.chosen = view.choices.size();
  if (!a.trial) return view;
  const TriedReadings& trial = *a.trial;
  view.shown = true;
  for (std::size_t i = view.choices.size(); i-- > 0;)
    if (view.choices[i].readings == content.wishes.tried) view.chosen = i;
  const Reading& reading = content.readings->rows.at(trial.rows.front());
  const std::string which =
      trial.rows.size() == 1 ? words_of(reading) : said_many("{} reading", "{} readings", trial.rows.size());
  view.title = trial.with_them ? said("With {}", which) : said("Without {}", which);
  view.as_is_title = tr("as it is");
  view.tried_title = trial.with_them ? tr("with it") : tr("without it");
  if (trial.rows.size() > 1) view.tried_title = trial.with_them ? tr("with them") : tr("without them");
  view.hint = tr("Only a trial: what Understand and Correct say still counts the readings as before. F7 goes back.");
  if (!trial.estimates) {
    for (const Problem& problem : trial.problems) view.changes.push_back(typeset(problem.text()));
    return view;
  }
  add_rows(view, *a.estimates, *trial.estimates);
  for (const std::string& text : new_among(trial.findings, a.findings))
    view.changes.push_back(said("Would be said: {}", text));
  for (const std::string& text : new_among(a.findings, trial.findings))
    view.changes.push_back(said("Would no longer be said: {}", text));
  add_corrections(view, chosen_correction(content, a), trial.correction ? &*trial.correction : nullptr);
  if (view.changes.empty()) view.changes.push_back(tr("Nothing would be said or set differently."));
  return view;
}

}  // namespace fitwright
