#include "bench/measuring/measure_steps.hpp"

#include <algorithm>

#include "base/number.hpp"
#include "base/text.hpp"
#include "base/words.hpp"
#include "bench/measuring/length_shown.hpp"
#include "bench/measuring/typed_line.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

Problem cannot(std::string what, std::string remedy) { return {Code::usage, {}, std::move(what), std::move(remedy)}; }

Problem nothing_due() {
  return cannot(tr("everything is read"), tr("ask for one more reading here, or go to a reading to change it"));
}

Problem gone(const Measuring& m, const ReadingKey& key) {
  return cannot(said("there is no {}", reading_words(m, key)), tr("choose one of the list"));
}

Measuring with_marks(Measuring m, MeasureMarks marks) {
  m.marks = std::make_shared<const MeasureMarks>(std::move(marks));
  return m;
}

template <class T>
void forget(std::vector<T>& list, const T& value) {
  list.erase(std::remove(list.begin(), list.end(), value), list.end());
}

/// The hand goes on after `key`, or to where it was before a reading was typed again.
Measuring moved_on(Measuring m, const ReadingKey& key) {
  const auto lines = due_lines(m);
  const std::size_t back = find_line(lines, m.back);
  m.here = back != none_there && lines[back].state == DueState::due ? m.back : next_due(lines, m.back ? m.back : key);
  m.back.reset();
  return m;
}

/// A doubt that is answered at the reading in hand ends the visit there.
Measuring answered(Measuring m, const ReadingKey& key) {
  return m.here == key ? moved_on(std::move(m), key) : settled(std::move(m));
}

std::string next_words(const Measuring& m) {
  return " " + (m.here ? said("Next: {}.", reading_words(m, *m.here)) : std::string(tr("That was the last one.")));
}

std::string length_with_unit(const Measuring& m, double mm) {
  return length_shown(mm, m.plan->inches) + " " + length_unit(m.plan->inches);
}

/// That a third reading has come up, if it has.
std::string third_words(const Measuring& before, const Measuring& after, const ReadingKey& key) {
  const auto old_lines = due_lines(before);
  for (const DueLine& line : due_lines(after)) {
    if (line.planned || line.state != DueState::due || line.key.feature_id != key.feature_id) continue;
    if (line.key.copy != key.copy || find_line(old_lines, line.key) != none_there) continue;
    const bool shanks = after.plan->spots[line.due.spot].feature.kind == Kind::pin;
    return " " + said("Two readings of {} differ by more than {}: a {} one comes at the end of this round.",
                      key.feature_id, shanks ? std::string(tr("a step")) : length_with_unit(after, third_limit_mm),
                      ordinal(line.key.repeat));
  }
  return {};
}

MeasureStep step_of(Measuring next, std::string label, const std::string& said) {
  return {std::move(next), std::move(label), typeset(said)};
}

}  // namespace

std::string reading_words(const Measuring& m, const ReadingKey& key) {
  const auto& parts = m.plan->parts;
  const bool copies_differ =
      std::any_of(parts.begin(), parts.end(), [&](const PartCopy& p) { return p.copy != parts.front().copy; });
  const bool steel = std::any_of(m.plan->spots.begin(), m.plan->spots.end(), [&](const MeasureSpot& s) {
    return s.part == none_there && s.feature.id == key.feature_id;
  });
  return copies_differ && !steel ? said("{} of copy {}, {} reading", key.feature_id, key.copy, ordinal(key.repeat))
                                 : said("{}, {} reading", key.feature_id, ordinal(key.repeat));
}

std::optional<Problem> not_readable(const Measuring& m, std::size_t spot, double mm) {
  const Feature& f = m.plan->spots[spot].feature;
  if (can_be_read(f, mm)) return std::nullopt;
  if (mm > 0)
    return Problem{Code::bad_input,
                   {},
                   said("{} is longer than any caliper", length_with_unit(m, mm)),
                   tr("check the decimal point and the unit")};
  return Problem{Code::bad_input,
                 {},
                 said("{} cannot be the size of {}", length_with_unit(m, mm), f.id),
                 tr("check the sign, and that the caliper shows zero with its jaws closed")};
}

Measuring with_reading(const Measuring& m, const Due& due, const ReadingKey& key, double mm, const std::string& why,
                       std::optional<double> at_s) {
  Measuring next = m;
  Taken taken;
  taken.spot = due.spot;
  taken.at_s = at_s;
  const MeasureSpot& spot = m.plan->spots[due.spot];
  taken.reading.feature = spot.feature;
  taken.reading.copy = key.copy;
  taken.reading.repeat = key.repeat;
  taken.reading.turned_deg = spot.turned_deg;
  taken.reading.note = spot.note;
  const auto old =
      std::find_if(next.taken.begin(), next.taken.end(), [&](const auto& t) { return key_of(t->reading) == key; });
  if (old == next.taken.end()) {
    taken.reading.reading_mm = mm;
    next.taken.push_back(std::make_shared<const Taken>(std::move(taken)));
  } else {
    taken.reading = (*old)->reading;
    taken.reading.reading_mm = mm;
    taken.why = why;
    *old = std::make_shared<const Taken>(std::move(taken));
  }
  const MeasureMarks& marks = marks_of(m);
  const auto is_marked = [&](const std::vector<ReadingKey>& list) {
    return std::find(list.begin(), list.end(), key) != list.end();
  };
  if (is_marked(marks.kept) || is_marked(marks.skipped)) {
    MeasureMarks changed = marks;
    forget(changed.kept, key);
    forget(changed.skipped, key);
    next = with_marks(std::move(next), std::move(changed));
  }
  return next;
}

Measuring settled(Measuring m) {
  const auto lines = due_lines(m);
  const std::size_t here = find_line(lines, m.here), back = find_line(lines, m.back);
  if (back == none_there) m.back.reset();
  if (here == none_there || (lines[here].state == DueState::damaged)) m.here = next_due(lines, m.back);
  return m;
}

Result<MeasureStep> type_line(const Measuring& m, const std::string& text, std::optional<double> at_s) {
  const auto lines = due_lines(m);
  const std::size_t at = find_line(lines, m.here);
  if (at == none_there) return nothing_due();
  const auto mm = length_from_line(text, m.plan->inches);
  if (!mm) return mm.problems();
  const DueLine& line = lines[at];
  if (const auto problem = not_readable(m, line.due.spot, *mm)) return *problem;
  Measuring next = moved_on(with_reading(m, line.due, line.key, *mm, "read again", at_s), line.key);
  const std::string sentence = said("{}: {}.", reading_words(m, line.key), length_shown(*mm, m.plan->inches)) +
                               third_words(m, next, line.key) + next_words(next);
  return step_of(std::move(next), said("reading of {}", line.key.feature_id), sentence);
}

Result<MeasureStep> amend_reading(const Measuring& m, const ReadingKey& key, const std::string& text) {
  const Taken* taken = taken_at(m, key);
  if (!taken) return gone(m, key);
  const auto mm = length_from_line(text, m.plan->inches);
  if (!mm) return mm.problems();
  if (const auto problem = not_readable(m, taken->spot, *mm)) return *problem;
  Measuring next = settled(with_reading(m, {taken->spot, key.repeat, 0}, key, *mm, "typed again", taken->at_s));
  const std::string sentence =
      said("{} is now {}.", reading_words(m, key), length_shown(*mm, m.plan->inches)) + third_words(m, next, key);
  return step_of(std::move(next), said("reading of {}", key.feature_id), sentence);
}

Result<MeasureStep> keep_doubtful(const Measuring& m, const MeasureDoubt& doubt) {
  if (!taken_at(m, doubt.key)) return gone(m, doubt.key);
  MeasureMarks marks = marks_of(m);
  forget(marks.kept, doubt.key);
  marks.kept.push_back(doubt.key);
  Measuring next = answered(with_marks(m, std::move(marks)), doubt.key);
  const std::string sentence =
      said("{} stays {}.", reading_words(m, doubt.key), length_shown(doubt.reading_mm, m.plan->inches)) +
      third_words(m, next, doubt.key);
  return step_of(std::move(next), said("keeping {}", doubt.key.feature_id), sentence);
}

Result<MeasureStep> take_proposal(const Measuring& m, const MeasureDoubt& doubt) {
  const Taken* taken = taken_at(m, doubt.key);
  if (!taken) return gone(m, doubt.key);
  if (!doubt.proposal_mm)
    return cannot(said("nothing is proposed for {}", reading_words(m, doubt.key)), tr("keep it, or read it again"));
  const std::string why = doubt.slip.empty() ? "proposal taken" : "proposal taken: " + doubt.slip;
  const Due due{taken->spot, doubt.key.repeat, 0};
  Measuring next = answered(with_reading(m, due, doubt.key, *doubt.proposal_mm, why, taken->at_s), doubt.key);
  const std::string sentence =
      said("{} is now {}.", reading_words(m, doubt.key), length_shown(*doubt.proposal_mm, m.plan->inches)) +
      third_words(m, next, doubt.key);
  return step_of(std::move(next), said("proposal for {}", doubt.key.feature_id), sentence);
}

Result<MeasureStep> read_again(const Measuring& m, const MeasureDoubt& doubt) { return go_to(m, doubt.key); }

Result<MeasureStep> skip_here(const Measuring& m) {
  const auto lines = due_lines(m);
  const std::size_t at = find_line(lines, m.here);
  if (at == none_there) return nothing_due();
  const ReadingKey key = lines[at].key;
  if (lines[at].state == DueState::read)
    return cannot(said("{} is read already", reading_words(m, key)), tr("take it out, or go to the next that is due"));
  MeasureMarks marks = marks_of(m);
  forget(marks.skipped, key);
  marks.skipped.push_back(key);
  Measuring next = moved_on(with_marks(m, std::move(marks)), key);
  const std::string sentence = said("{} is skipped.", reading_words(m, key)) + next_words(next);
  return step_of(std::move(next), said("skipping {}", key.feature_id), sentence);
}

Result<MeasureStep> part_damaged(const Measuring& m, const std::string& note) {
  const auto lines = due_lines(m);
  const std::size_t at = find_line(lines, m.here);
  if (at == none_there) return nothing_due();
  const ReadingKey key = lines[at].key;
  if (m.plan->spots[lines[at].due.spot].part == none_there)
    return cannot(said("{} is steel, no printed part", key.feature_id), tr("skip it"));
  MeasureMarks marks = marks_of(m);
  std::erase_if(marks.damaged,
                [&](const DamagedPlace& d) { return d.copy == key.copy && d.feature_id == key.feature_id; });
  marks.damaged.push_back({key.copy, key.feature_id, note});
  const auto dropped = std::count_if(lines.begin(), lines.end(), [&](const DueLine& line) {
    return line.state == DueState::due && line.key.copy == key.copy && line.key.feature_id == key.feature_id;
  });
  Measuring next = moved_on(with_marks(m, std::move(marks)), key);
  const std::string sentence =
      said_many("{1} of copy {2}: {3}, {0} reading left out.", "{1} of copy {2}: {3}, {0} readings left out.",
                static_cast<std::size_t>(dropped), key.feature_id, key.copy, tr(note.c_str())) +
      next_words(next);
  return step_of(std::move(next), said("damage at {}", key.feature_id), sentence);
}

Result<MeasureStep> one_more_here(const Measuring& m) {
  const auto lines = due_lines(m);
  const Taken* last = last_taken(m);
  const std::size_t at = find_line(lines, m.here ? m.here : last ? std::optional(key_of(last->reading)) : std::nullopt);
  if (at == none_there) return nothing_due();
  const std::size_t spot = lines[at].due.spot;
  const MoreAsked more{spot, free_repeat(m, spot), lines[at].key};
  MeasureMarks marks = marks_of(m);
  marks.more.push_back(more);
  // Who wants one more reads there again.
  std::erase_if(marks.damaged, [&](const DamagedPlace& d) {
    return d.copy == more.after.copy && d.feature_id == more.after.feature_id;
  });
  Measuring next = with_marks(m, std::move(marks));
  const ReadingKey key{more.after.copy, more.after.feature_id, more.repeat};
  if (lines[at].state != DueState::due) {
    if (m.here && !m.back) next.back = next_due(lines, m.here);
    next.here = key;
  }
  const std::string sentence = said("One more: {}.", reading_words(m, key));
  return step_of(std::move(next), said("one more of {}", key.feature_id), sentence);
}

Result<MeasureStep> go_to(const Measuring& m, const ReadingKey& key) {
  const auto lines = due_lines(m);
  const std::size_t at = find_line(lines, key), from = find_line(lines, m.here);
  if (at == none_there) return gone(m, key);
  Measuring next = m;
  if (lines[at].state != DueState::read) {
    next.back.reset();
  } else if (!next.back && from != none_there && lines[from].state == DueState::due) {
    next.back = m.here;
  }
  if (lines[at].state == DueState::skipped || lines[at].state == DueState::damaged) {
    MeasureMarks marks = marks_of(m);
    forget(marks.skipped, key);
    std::erase_if(marks.damaged,
                  [&](const DamagedPlace& d) { return d.copy == key.copy && d.feature_id == key.feature_id; });
    next = with_marks(std::move(next), std::move(marks));
  }
  next.here = key;
  const std::string sentence = lines[at].state == DueState::read
                                   ? said("{}, {} so far. Read it again.", reading_words(m, key),
                                          length_shown(taken_at(m, key)->reading.reading_mm, m.plan->inches))
                                   : reading_words(m, key) + ".";
  return step_of(std::move(next), said("going to {}", key.feature_id), sentence);
}

Result<MeasureStep> go_on(const Measuring& m) {
  if (!m.here || !taken_at(m, *m.here)) return cannot(tr("no reading is being typed again"), tr("type the next one"));
  const std::string id = m.here->feature_id;
  Measuring next = moved_on(m, *m.here);
  const std::string sentence = said("{} stays.", reading_words(m, *m.here)) + next_words(next);
  return step_of(std::move(next), said("leaving {}", id), sentence);
}

Result<MeasureStep> to_first_due(const Measuring& m) {
  const auto first = next_due(due_lines(m), std::nullopt);
  if (!first) return nothing_due();
  return go_to(m, *first);
}

Result<MeasureStep> delete_reading(const Measuring& m, const ReadingKey& key) {
  const Taken* taken = taken_at(m, key);
  if (!taken) return gone(m, key);
  Measuring next = m;
  std::erase_if(next.taken, [&](const auto& t) { return t.get() == taken; });
  MeasureMarks marks = marks_of(m);
  forget(marks.kept, key);
  if (marks != marks_of(m)) next = with_marks(std::move(next), std::move(marks));
  const std::string sentence = said("{} is taken out.", reading_words(m, key));
  return step_of(settled(std::move(next)), said("taking out {}", key.feature_id), sentence);
}

}  // namespace fitwright
