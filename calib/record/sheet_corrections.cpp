#include <algorithm>

#include "base/number.hpp"
#include "base/text.hpp"
#include "record/life.hpp"
#include "record/rows.hpp"
#include "record/sheet.hpp"

namespace fitwright::record {
namespace {

const std::vector<std::string> columns{"correction", "setup",    "printer",  "material", "spool",  "origin",
                                       "policy",     "standing", "proposed", "applied",  "proved", "withdrawn",
                                       "knob",       "old",      "new",      "reason"};

/// When a step of its life was taken the last time; empty when it was not.
std::string when(const CorrectionLife& life, std::string_view what) {
  std::string at;
  for (const auto& event : life.events)
    if (event.value.what == what) at = event.at;
  return at;
}

void add_correction(Sheet& sheet, const SetupNames& names, const CorrectionLife& life) {
  const StoredCorrection& stored = life.correction.value;
  const std::string source = "correction " + life.correction.thing.text;
  const auto before = parse_state(stored.before, source), after = parse_state(stored.after, source);
  std::vector<KnobDifference> knobs;
  if (before && after)
    knobs = differences(*before, *after);
  else
    sheet.sheet.notes.push_back("The states of " + source + " could not be read: it stands without its knobs.");
  const std::string proposed = when(life, word(Standing::proposed));
  const std::vector<std::string> begin{life.correction.thing.text,
                                       sheet_text(names.setup),
                                       sheet_text(names.printer),
                                       sheet_text(names.material),
                                       sheet_text(names.spool),
                                       sheet_text(stored.origin),
                                       sheet_text(stored.policy),
                                       std::string(word(life.standing)),
                                       sheet_text(proposed.empty() ? life.correction.at : proposed),
                                       sheet_text(when(life, word(Standing::applied))),
                                       sheet_text(when(life, word(Standing::proved))),
                                       sheet_text(when(life, word(Standing::withdrawn)))};
  const std::string reason = life.events.empty() ? std::string() : sheet_text(life.events.back().value.reason);
  const auto add = [&](const std::string& knob, const std::string& old_value, const std::string& new_value) {
    std::vector<std::string> row = begin;
    row.insert(row.end(), {sheet_text(knob), old_value, new_value, reason});
    sheet.add(row);
  };
  for (const KnobDifference& knob : knobs) add(knob.knob, shortest(knob.a), shortest(knob.b));
  if (knobs.empty()) add("", "", "");  // a correction that changes nothing is one all the same
}

}  // namespace

Result<Spreadsheet> corrections_csv(Record& record, const SpreadsheetOptions& options) {
  return guarded(record, [&]() -> Result<Spreadsheet> {
    const Snapshot together(record.database());
    const auto setups = setups_for(record, options.setup);
    if (!setups) return setups.problems();
    Sheet sheet(columns);
    for (const SetupNames& names : *setups) {
      const auto lives = corrections_of(record, names.id);
      if (!lives) return lives.problems();
      for (const CorrectionLife& life : *lives) add_correction(sheet, names, life);
    }
    return std::move(sheet.sheet);
  });
}

}  // namespace fitwright::record
