// A readings file against what was measured here: what it would add, change or contradict.

#include <algorithm>
#include <map>
#include <set>

#include "base/words.hpp"
#include "bench/measuring/length_shown.hpp"
#include "bench/measuring/measure_keeping.hpp"
#include "bench/measuring/measure_paste.hpp"
#include "bench/shown.hpp"
#include "reading/csv.hpp"

namespace fitwright {
namespace {

using What = ImportedRow::What;

/// A reading at hand that has no place in the plan, with this key.
const Reading* beside(const Measuring& m, const ReadingKey& key) {
  if (m.unplaced)
    for (const Reading& r : *m.unplaced)
      if (key_of(r) == key) return &r;
  return nullptr;
}

ImportedRow row_of(const Measuring& m, const Reading& reading) {
  ImportedRow row;
  row.line = reading.row;
  row.reading = reading;
  row.place = reading_words(m, key_of(reading)) + ": " + length_shown(reading.reading_mm, m.plan->inches);
  const Belongs belongs = place_in_plan(*m.plan, reading);
  const Reading* here = nullptr;
  if (belongs.contradicts) {
    row.what = What::contradicts;
    row.told = belongs.why_not;
    return row;
  }
  if (belongs.spot == none_there) {
    here = beside(m, key_of(reading));
    row.what = What::beside;
    row.told = belongs.why_not;
  } else if (const Taken* taken = taken_at(m, key_of(reading))) {
    here = &taken->reading;
  }
  if (!here) return row;
  row.what = here->reading_mm == reading.reading_mm ? What::same : What::differs;
  row.told =
      row.what == What::differs ? said("here it is {}", length_shown(here->reading_mm, m.plan->inches)) : std::string();
  return row;
}

std::string summary_of(const ImportPreview& p) {
  if (!p.defects.empty())
    return said_many("The file cannot be read: {} defect. Nothing is changed.",
                     "The file cannot be read: {} defects. Nothing is changed.", p.defects.size());
  std::string text = said_many("{} reading to add", "{} readings to add", p.added);
  if (p.same > 0) text += ", " + said("{} here already", p.same);
  if (p.differing > 0) text += ", " + said_many("{} differs from those here", "{} differ from those here", p.differing);
  if (p.beside > 0) text += ", " + said("{} not on this plan", p.beside);
  if (p.contradicting > 0)
    text += ", " + said_many("{} contradicts this plan and is left out", "{} contradict this plan and are left out",
                             p.contradicting);
  return text + ".";
}

}  // namespace

ImportPreview preview_import(const Measuring& m, const std::string& csv, const std::string& source) {
  ImportPreview preview;
  const auto readings = parse_readings(csv, source);
  if (!readings) {
    for (const Problem& problem : readings.problems()) preview.defects.push_back(problem.text());
    preview.summary = summary_of(preview);
    return preview;
  }
  for (const Reading& r : readings->rows) {
    preview.rows.push_back(row_of(m, r));
    const What what = preview.rows.back().what;
    ++(what == What::added     ? preview.added
       : what == What::same    ? preview.same
       : what == What::differs ? preview.differing
       : what == What::beside  ? preview.beside
                               : preview.contradicting);
  }
  std::map<ReadingKey, std::string> doubts;
  if (const auto taken = take_import(m, preview, true))
    for (const MeasureDoubt& doubt : doubts_of(taken->next)) doubts[doubt.key] = doubt.sentence;
  for (ImportedRow& row : preview.rows)
    if (row.what == What::added && doubts.contains(key_of(row.reading))) row.told = doubts[key_of(row.reading)];
  preview.summary = summary_of(preview);
  return preview;
}

Result<MeasureStep> take_import(const Measuring& m, const ImportPreview& preview, bool replace) {
  if (!preview.defects.empty())
    return Problem{Code::bad_input, {}, preview.defects.front(), tr("correct the file, then import it again")};
  Measuring next = m;
  std::vector<Reading> unplaced = m.unplaced ? *m.unplaced : std::vector<Reading>();
  std::size_t count = 0;
  for (const ImportedRow& row : preview.rows) {
    if (row.what == What::same || row.what == What::contradicts || (row.what == What::differs && !replace)) continue;
    ++count;
    Reading r = row.reading;
    r.row = 0;
    const ReadingKey key = key_of(r);
    const Belongs belongs = place_in_plan(*m.plan, r);
    if (belongs.spot == none_there) {
      const auto old =
          std::find_if(unplaced.begin(), unplaced.end(), [&](const Reading& u) { return key_of(u) == key; });
      if (old == unplaced.end())
        unplaced.push_back(std::move(r));
      else
        *old = std::move(r);
      continue;
    }
    next = with_reading(next, {belongs.spot, r.repeat, 0}, key, r.reading_mm, "imported");
    r.feature = m.plan->spots[belongs.spot].feature;
    for (auto& t : next.taken)
      if (key_of(t->reading) == key) t = std::make_shared<const Taken>(Taken{r, belongs.spot, t->why, {}});
  }
  if (count == 0) return Problem{Code::usage, {}, tr("the file holds nothing new"), tr("nothing is changed")};
  if (!unplaced.empty()) next.unplaced = std::make_shared<const std::vector<Reading>>(std::move(unplaced));
  const bool read_here = m.here && !taken_at(m, *m.here) && taken_at(next, *m.here);
  if (read_here) next.here = next_due(due_lines(next), m.here);
  const std::string words = said_many("{} reading", "{} readings", count);
  return MeasureStep{settled(std::move(next)), said("importing {}", words), said("{} imported.", words)};
}

}  // namespace fitwright
