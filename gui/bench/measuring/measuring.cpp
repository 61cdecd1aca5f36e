#include "bench/measuring/measuring.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/words.hpp"
#include "bench/measuring/length_shown.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

template <class T, class Value>
bool holds(const std::vector<T>& list, const Value& value) {
  return std::find(list.begin(), list.end(), value) != list.end();
}

bool same_reading(const Reading& a, const Reading& b) {
  return key_of(a) == key_of(b) && same_feature(a.feature, b.feature) && a.reading_mm == b.reading_mm &&
         a.turned_deg == b.turned_deg && a.step_mm == b.step_mm && a.part_c == b.part_c && a.note == b.note;
}

bool is_damaged(const MeasureMarks& marks, const ReadingKey& key) {
  return std::any_of(marks.damaged.begin(), marks.damaged.end(),
                     [&](const DamagedPlace& d) { return d.copy == key.copy && d.feature_id == key.feature_id; });
}

/// Puts planned lines and what came of them in one order.
class Lines {
 public:
  explicit Lines(const Measuring& m) : m_(m), marks_(marks_of(m)), by_spot_(m.plan->spots.size()) {
    for (const auto& t : m.taken) {
      taken_.insert(key_of(t->reading));
      by_spot_[t->spot].push_back(t.get());
    }
    for (const MoreAsked& more : marks_.more) asked_.insert(key_of(m, more));
    for (const Due& due : m.plan->order) planned_.insert(key_of(*m.plan, due));
  }

  std::vector<DueLine> run() {
    const std::vector<Due>& order = m_.plan->order;
    std::size_t begin = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
      if (!read_often_enough(order[i])) add(order[i], key_of(*m_.plan, order[i]), true);
      add_asked_after(key_of(*m_.plan, order[i]), order[i].section);
      if (i + 1 < order.size() && order[i + 1].section == order[i].section) continue;
      close_round(begin, i + 1);
      begin = i + 1;
    }
    return std::move(lines_);
  }

 private:
  const Measuring& m_;
  const MeasureMarks& marks_;
  std::vector<std::vector<const Taken*>> by_spot_;
  std::set<ReadingKey> taken_, asked_, planned_, added_;
  std::vector<DueLine> lines_;

  static ReadingKey key_of(const Measuring& m, const MoreAsked& more) {
    const MeasureSpot& spot = m.plan->spots[more.spot];
    return {spot.copy, spot.feature.id, more.repeat};
  }
  static ReadingKey key_of(const MeasurePlan& plan, const Due& due) { return fitwright::key_of(plan, due); }
  static ReadingKey key_of(const Reading& reading) { return fitwright::key_of(reading); }

  void add(const Due& due, const ReadingKey& key, bool planned) {
    if (!added_.insert(key).second) return;
    DueState state = DueState::due;
    if (taken_.contains(key))
      state = DueState::read;
    else if (is_damaged(marks_, key))
      state = DueState::damaged;
    else if (holds(marks_.skipped, key))
      state = DueState::skipped;
    lines_.push_back({due, key, state, planned});
  }

  /// Whether other readings stand in for a planned one: a file may number them otherwise.
  bool read_often_enough(const Due& due) {
    if (taken_.contains(key_of(*m_.plan, due))) return false;
    const auto& at = by_spot_[due.spot];
    const auto counting =
        std::count_if(at.begin(), at.end(), [&](const Taken* t) { return !asked_.contains(key_of(t->reading)); });
    return counting >= m_.plan->spots[due.spot].times;
  }

  void add_asked_after(const ReadingKey& key, std::size_t section) {
    for (const MoreAsked& more : marks_.more) {
      if (more.after != key || added_.contains(key_of(m_, more))) continue;
      add({more.spot, more.repeat, section}, key_of(m_, more), false);
      add_asked_after(key_of(m_, more), section);
    }
  }

  /// Everything else of the places in this part of the order.
  void close_round(std::size_t begin, std::size_t end) {
    std::set<std::size_t> seen;
    for (std::size_t i = begin; i < end; ++i) {
      const Due& due = m_.plan->order[i];
      if (!seen.insert(due.spot).second) continue;
      for (const Taken* t : by_spot_[due.spot])
        add({due.spot, t->reading.repeat, due.section}, key_of(t->reading), false);
      for (const MoreAsked& more : marks_.more)
        if (more.spot == due.spot) add({more.spot, more.repeat, due.section}, key_of(m_, more), false);
      if (!wants_a_third(due.spot)) continue;
      const int repeat = free_repeat(m_, due.spot);
      const MeasureSpot& spot = m_.plan->spots[due.spot];
      add({due.spot, repeat, due.section}, {spot.copy, spot.feature.id, repeat}, false);
    }
  }

  [[nodiscard]] bool counts(const Taken& t) const {
    return passes_gate(t.reading) || holds(marks_.kept, key_of(t.reading));
  }

  [[nodiscard]] bool wants_a_third(std::size_t spot) const {
    const auto& at = by_spot_[spot];
    if (is_steel(m_.plan->spots[spot].feature.kind) || at.size() != 2 || !counts(*at[0]) || !counts(*at[1]))
      return false;
    // A reading that is still to come will tell.
    const bool coming = std::any_of(marks_.more.begin(), marks_.more.end(), [&](const MoreAsked& more) {
      return more.spot == spot && !taken_.contains(key_of(m_, more));
    });
    if (coming || at.size() < static_cast<std::size_t>(m_.plan->spots[spot].times)) return false;
    return need_a_third(at[0]->reading, at[1]->reading);
  }
};

std::string sentence_of(const MeasureDoubt& doubt, bool inches) {
  const std::string read = length_shown(doubt.reading_mm, inches), off = length_shown(doubt.off_mm, inches);
  std::string text = doubt.rule == Rule::entry ? said("{} is {} from drawn.", read, off)
                                               : said("{} is {} from the other readings here.", read, off);
  if (doubt.proposal_mm) text += " " + length_shown(*doubt.proposal_mm, inches) + "?";
  return text;
}

}  // namespace

bool operator==(const Measuring& a, const Measuring& b) {
  const auto same = [](const auto& x, const auto& y) {
    return x->spot == y->spot && same_reading(x->reading, y->reading);
  };
  const std::vector<Reading> none;
  const auto& other_a = a.unplaced ? *a.unplaced : none;
  const auto& other_b = b.unplaced ? *b.unplaced : none;
  return a.plan == b.plan && a.here == b.here && a.back == b.back && marks_of(a) == marks_of(b) &&
         std::equal(a.taken.begin(), a.taken.end(), b.taken.begin(), b.taken.end(), same) &&
         std::equal(other_a.begin(), other_a.end(), other_b.begin(), other_b.end(), same_reading);
}

bool same_evening(const Measuring& a, const Measuring& b) {
  if (!a.plan || !b.plan) return a.plan == b.plan;
  if (!same_plan(*a.plan, *b.plan) || a.here != b.here || marks_of(a) != marks_of(b)) return false;
  const auto by_key = [](const Measuring& m) {
    std::map<ReadingKey, Reading> out;
    for (const Reading& r : readings_of(m).rows) out.emplace(key_of(r), r);
    return out;
  };
  const auto ours = by_key(a), theirs = by_key(b);
  return a.taken.size() == b.taken.size() &&
         std::equal(ours.begin(), ours.end(), theirs.begin(), theirs.end(),
                    [](const auto& x, const auto& y) { return same_reading(x.second, y.second); });
}

Measuring begin_measuring(std::shared_ptr<const MeasurePlan> plan) {
  Measuring m;
  m.plan = std::move(plan);
  m.here = next_due(due_lines(m), std::nullopt);
  return m;
}

const MeasureMarks& marks_of(const Measuring& m) {
  static const MeasureMarks none;
  return m.marks ? *m.marks : none;
}

const Taken* taken_at(const Measuring& m, const ReadingKey& key) {
  for (const auto& t : m.taken)
    if (key_of(t->reading) == key) return t.get();
  return nullptr;
}

const Taken* last_taken(const Measuring& m) { return m.taken.empty() ? nullptr : m.taken.back().get(); }

std::vector<DueLine> due_lines(const Measuring& m) { return Lines(m).run(); }

std::size_t find_line(const std::vector<DueLine>& lines, const std::optional<ReadingKey>& key) {
  if (key)
    for (std::size_t i = 0; i < lines.size(); ++i)
      if (lines[i].key == *key) return i;
  return none_there;
}

std::optional<ReadingKey> next_due(const std::vector<DueLine>& lines, const std::optional<ReadingKey>& key) {
  const std::size_t from = find_line(lines, key), n = lines.size();
  const std::size_t first = from == none_there ? 0 : from + 1;
  for (std::size_t i = 0; i < n; ++i) {
    const DueLine& line = lines[(first + i) % n];
    if (line.state == DueState::due) return line.key;
  }
  return std::nullopt;
}

int free_repeat(const Measuring& m, std::size_t spot) {
  const MeasureSpot& s = m.plan->spots[spot];
  int highest = 0;
  const auto count = [&](const ReadingKey& key) {
    if (key.copy == s.copy && key.feature_id == s.feature.id) highest = std::max(highest, key.repeat);
  };
  for (const Due& due : m.plan->order)
    if (m.plan->spots[due.spot].feature.id == s.feature.id) count(key_of(*m.plan, due));
  for (const auto& t : m.taken) count(key_of(t->reading));
  for (const MoreAsked& more : marks_of(m).more)
    count({m.plan->spots[more.spot].copy, m.plan->spots[more.spot].feature.id, more.repeat});
  return highest + 1;
}

ReadingSet readings_of(const Measuring& m) {
  ReadingSet set;
  for (const auto& t : m.taken) set.rows.push_back(t->reading);
  if (m.unplaced) set.rows.insert(set.rows.end(), m.unplaced->begin(), m.unplaced->end());
  return set;
}

std::vector<MeasureDoubt> doubts_of(const Measuring& m, const ExpectedSizes& expected) {
  ReadingSet set;
  for (const auto& t : m.taken) set.rows.push_back(t->reading);
  std::vector<MeasureDoubt> doubts;
  const bool inches = m.plan && m.plan->inches;
  const Digits usual = inches ? Digits::inches : Digits::mm;
  for (Suspect suspect : check_readings(set, usual)) {
    const Reading& r = set.rows[suspect.index];
    if (holds(marks_of(m).kept, key_of(r))) continue;
    const auto others = std::count_if(set.rows.begin(), set.rows.end(), [&](const Reading& other) {
      return place_of(other) == place_of(r) && passes_gate(other);
    });
    const auto fit = expected.find(place_of(r));
    if (suspect.rule == Rule::entry && others == 0 && fit != expected.end())
      suspect = *check_entry(r, fit->second, usual);
    MeasureDoubt doubt;
    doubt.key = key_of(r);
    doubt.rule = suspect.rule;
    doubt.reading_mm = r.reading_mm;
    doubt.proposal_mm = suspect.proposal_mm;
    doubt.slip = suspect.slip;
    doubt.off_mm = std::abs(r.reading_mm - suspect.against_mm);
    doubt.sentence = sentence_of(doubt, inches);
    doubts.push_back(std::move(doubt));
  }
  return doubts;
}

}  // namespace fitwright
