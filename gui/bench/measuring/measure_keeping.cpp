#include "bench/measuring/measure_keeping.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/measuring/measure_steps.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

constexpr std::string_view here_word = "here", back_word = "back", skipped_word = "skipped", kept_word = "kept",
                           damaged_word = "damaged", more_word = "more";

/// A field of a bookmark: tabs and line ends would break it.
std::string field(std::string text) {
  for (char& c : text)
    if (c == '\t' || c == '\n' || c == '\r') c = ' ';
  return text;
}

std::string fields_of(const ReadingKey& key) {
  return "\t" + std::to_string(key.copy) + "\t" + std::to_string(key.repeat) + "\t" + field(key.feature_id);
}

std::vector<std::string> split(const std::string& text, char separator) {
  std::vector<std::string> parts(1);
  for (const char c : text)
    if (c == separator)
      parts.emplace_back();
    else
      parts.back() += c;
  return parts;
}

std::optional<ReadingKey> key_at(const std::vector<std::string>& fields, std::size_t first) {
  if (fields.size() < first + 3) return std::nullopt;
  const auto copy = parse_whole(fields[first]), repeat = parse_whole(fields[first + 1]);
  if (!copy || !repeat) return std::nullopt;
  return ReadingKey{*copy, fields[first + 2], *repeat};
}

/// The place whose readings have this key, or none_there.
std::size_t spot_of(const MeasurePlan& plan, const ReadingKey& key) {
  std::size_t found = none_there;
  for (std::size_t i = 0; i < plan.spots.size(); ++i) {
    const MeasureSpot& s = plan.spots[i];
    if (s.feature.id != key.feature_id || s.copy != key.copy) continue;
    if (found == none_there || (key.repeat - s.first_repeat) % s.repeat_step == 0) found = i;
  }
  return found;
}

}  // namespace

Belongs place_in_plan(const MeasurePlan& plan, const Reading& reading) {
  const bool steel = is_steel(reading.feature.kind);
  Belongs belongs;
  belongs.why_not = tr("is not on this plan");
  std::size_t only = none_there, found = 0;
  const auto contradicts = [&](std::string why) { belongs = {none_there, std::move(why), true}; };
  for (std::size_t i = 0; i < plan.spots.size(); ++i) {
    const MeasureSpot& s = plan.spots[i];
    if (s.feature.id != reading.feature.id) continue;
    if (s.feature.nominal_mm != reading.feature.nominal_mm) {
      contradicts(said("is drawn {} here, but {} there", shown_exact(s.feature.nominal_mm),
                       shown_exact(reading.feature.nominal_mm)));
    } else if (!same_feature(s.feature, reading.feature)) {
      contradicts(tr("is another kind of feature here"));
    } else if (!steel && s.copy == reading.copy && s.turned_deg != reading.turned_deg) {
      contradicts(said("lay at {}\u00b0 here, but at {}\u00b0 there", s.turned_deg, reading.turned_deg));
    } else if (steel || s.copy == reading.copy) {
      only = i;
      ++found;
      if (s.note == reading.note) belongs.spot = i;
    }
  }
  if (belongs.spot == none_there && found == 1) belongs.spot = only;
  if (belongs.spot == none_there && found > 1) contradicts(tr("needs the note up or across"));
  if (belongs.spot != none_there) belongs = {belongs.spot, {}, false};
  return belongs;
}

Result<Resumed> with_readings(std::shared_ptr<const MeasurePlan> plan, const ReadingSet& readings) {
  Resumed resumed;
  Problems problems;
  Measuring& m = resumed.measuring;
  m.plan = std::move(plan);
  std::vector<Reading> unplaced;
  std::set<ReadingKey> seen;
  for (Reading r : readings.rows) {
    Belongs belongs = place_in_plan(*m.plan, r);
    if (!seen.insert(key_of(r)).second) belongs = {none_there, tr("is there twice"), true};
    const std::string words =
        said("{} of copy {}, {} reading, {}", r.feature.id, r.copy, ordinal(r.repeat), belongs.why_not);
    if (belongs.contradicts) {
      problems.push_back({Code::bad_input, {readings.source, r.row, 0}, words, tr("correct the one or the other")});
      continue;
    }
    r.row = 0;
    if (belongs.spot == none_there) {
      resumed.notes.push_back(words);
      unplaced.push_back(std::move(r));
      continue;
    }
    r.feature = m.plan->spots[belongs.spot].feature;  // a file does not hold its label
    m.taken.push_back(std::make_shared<const Taken>(Taken{std::move(r), belongs.spot, {}, {}}));
  }
  if (!problems.empty()) return problems;
  if (!unplaced.empty()) m.unplaced = std::make_shared<const std::vector<Reading>>(std::move(unplaced));
  const Taken* last = last_taken(m);
  m.here = next_due(due_lines(m), last ? std::optional(key_of(last->reading)) : std::nullopt);
  return resumed;
}

std::string bookmark_of(const Measuring& m) {
  const MeasureMarks& marks = marks_of(m);
  std::string text;
  const auto add = [&](std::string_view word, const std::string& fields) { text += std::string(word) + fields + "\n"; };
  for (const ReadingKey& key : marks.skipped) add(skipped_word, fields_of(key));
  for (const ReadingKey& key : marks.kept) add(kept_word, fields_of(key));
  for (const DamagedPlace& d : marks.damaged)
    add(damaged_word, fields_of({d.copy, d.feature_id, 0}) + "\t" + field(d.note));
  for (const MoreAsked& more : marks.more) {
    const MeasureSpot& spot = m.plan->spots[more.spot];
    add(more_word,
        fields_of({spot.copy, spot.feature.id, more.repeat}) + "\t" + field(spot.note) + fields_of(more.after));
  }
  if (m.back) add(back_word, fields_of(*m.back));
  if (m.here) add(here_word, fields_of(*m.here));
  return text;
}

Measuring with_bookmark(const Measuring& m, const std::string& bookmark) {
  MeasureMarks marks;
  std::optional<ReadingKey> here, back;
  for (const std::string& line : split(bookmark, '\n')) {
    const auto fields = split(line, '\t');
    const auto key = key_at(fields, 1);
    if (!key || spot_of(*m.plan, *key) == none_there) continue;
    const std::string& word = fields.front();
    if (word == here_word) here = key;
    if (word == back_word) back = key;
    if (word == skipped_word) marks.skipped.push_back(*key);
    if (word == kept_word) marks.kept.push_back(*key);
    if (word == damaged_word && fields.size() > 4) marks.damaged.push_back({key->copy, key->feature_id, fields[4]});
    const auto after = key_at(fields, 5);
    if (word != more_word || !after) continue;
    for (std::size_t i = 0; i < m.plan->spots.size(); ++i) {
      const MeasureSpot& s = m.plan->spots[i];
      if (s.feature.id == key->feature_id && s.copy == key->copy && s.note == fields[4])
        marks.more.push_back({i, key->repeat, *after});
    }
  }
  Measuring next = m;
  next.marks = marks == MeasureMarks{} ? nullptr : std::make_shared<const MeasureMarks>(std::move(marks));
  next.here = here;
  next.back = back;
  return settled(std::move(next));
}

std::vector<ReadingChange> changes_between(const Measuring& before, const Measuring& after) {
  std::vector<ReadingChange> changes;
  std::map<ReadingKey, const Taken*> now;
  for (const auto& t : after.taken) now[key_of(t->reading)] = t.get();
  std::map<ReadingKey, const Taken*> was;
  for (const auto& t : before.taken) {
    const ReadingKey key = key_of(t->reading);
    was[key] = t.get();
    const auto found = now.find(key);
    if (found == now.end()) {
      changes.push_back({ReadingChange::What::removed, key, t->reading, t->reading.reading_mm, {}, {}});
    } else if (found->second->reading.reading_mm != t->reading.reading_mm) {
      const std::string why = found->second->why.empty() ? "taken back" : found->second->why;
      changes.push_back({ReadingChange::What::amended, key, found->second->reading, t->reading.reading_mm,
                         found->second->reading.reading_mm, why});
    }
  }
  for (const auto& t : after.taken)
    if (!was.contains(key_of(t->reading)))
      changes.push_back({ReadingChange::What::added, key_of(t->reading), t->reading, {}, t->reading.reading_mm, {}});
  return changes;
}

}  // namespace fitwright
