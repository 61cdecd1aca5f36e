#include "bench/measuring/measure_table.hpp"

#include "base/words.hpp"
#include "bench/measuring/length_shown.hpp"
#include "bench/measuring/measure_words.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

std::string state_words(DueState state, bool here) {
  switch (state) {
    case DueState::skipped:
      return tr("skipped");
    case DueState::damaged:
      return tr("damaged");
    case DueState::due:
      return here ? tr("in hand") : "";
    case DueState::read:
      return {};
  }
  return {};
}

}  // namespace

std::vector<TableRow> measure_table(const Measuring& m, const TableRemarks& remarks) {
  std::vector<TableRow> rows;
  if (!m.plan) return rows;
  const bool inches = m.plan->inches;
  std::map<ReadingKey, std::string> doubts;
  for (const MeasureDoubt& doubt : doubts_of(m)) doubts[doubt.key] = doubt.sentence;
  for (const DueLine& line : due_lines(m)) {
    const MeasureSpot& spot = m.plan->spots[line.due.spot];
    TableRow row;
    row.key = line.key;
    // "jaws" has no need of the words for what it is.
    row.place = spot.feature.kind == Kind::zero ? spot.feature.id : coming_words(spot);
    if (spot.part != none_there) row.copy = std::to_string(line.key.copy);
    row.ordinal = ordinal(line.key.repeat);
    row.drawn = length_shown(spot.feature.nominal_mm, inches);
    row.remark = state_words(line.state, line.key == m.here);
    if (const Taken* taken = taken_at(m, line.key)) {
      row.reading = as_read(taken->reading.reading_mm, inches);
      row.remark = line.key == m.here ? tr("in hand, to be read again") : taken->reading.note;
    }
    const auto doubt = doubts.find(line.key);
    const auto remark = remarks.find(line.key);
    row.doubtful = doubt != doubts.end() || remark != remarks.end();
    if (doubt != doubts.end())
      row.remark = doubt->second;
    else if (remark != remarks.end())
      row.remark = remark->second;
    rows.push_back(std::move(row));
  }
  if (m.unplaced)
    for (const Reading& r : *m.unplaced) {
      TableRow row;
      row.key = key_of(r);
      row.place = r.feature.id + " " + std::string(spoken(r.feature.kind));
      row.copy = is_steel(r.feature.kind) ? std::string() : std::to_string(r.copy);
      row.ordinal = ordinal(r.repeat);
      row.reading = as_read(r.reading_mm, inches);
      row.drawn = length_shown(r.feature.nominal_mm, inches);
      row.remark = tr("not on this plan");
      row.placed = false;
      rows.push_back(std::move(row));
    }
  return rows;
}

}  // namespace fitwright
