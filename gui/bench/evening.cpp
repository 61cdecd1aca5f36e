#include "bench/evening.hpp"

#include <algorithm>
#include <limits>
#include <set>

#include "base/words.hpp"
#include "bench/measuring/measure_steps.hpp"
#include "bench/printed_parts.hpp"
#include "record/state_in_force.hpp"

namespace fitwright {
namespace {

using record::Id;
using record::Kept;

/// Hours from one moment to another; far away when one is not written as the record does.
double hours_between(const std::string& from, const std::string& to) {
  constexpr double ms_per_hour = 3.6e6;
  const auto a = record::moment_ms(from), b = record::moment_ms(to);
  return a && b ? static_cast<double>(*b - *a) / ms_per_hour : std::numeric_limits<double>::infinity();
}

/// Key of the place in the evening in the record's own table of such things; it is no fact and is not exported.
std::string bookmark_key(const Id& setup) { return "evening " + setup.text; }

std::optional<std::string> stored_bookmark(record::Record& record, const Id& setup) {
  return record.database().word("SELECT value FROM about WHERE key = ?", bookmark_key(setup));
}

void store_bookmark(record::Record& record, const Id& setup, const std::string& text) {
  record.database().run(
      "INSERT INTO about (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value",
      bookmark_key(setup), text);
}

Reading reading_of(const Feature& feature, const record::StoredReading& stored, int copy, int turned_deg) {
  Reading r;
  r.feature = feature;
  r.copy = copy;
  r.turned_deg = turned_deg;
  r.repeat = stored.repeat;
  r.reading_mm = stored.reading_mm.value_or(0);
  r.step_mm = stored.step_mm;
  r.part_c = stored.part_c;
  r.note = stored.note;
  return r;
}

Feature steel_feature(const record::SteelReading& stored) {
  Feature f;
  f.id = stored.feature_id;
  f.kind = kind_from(stored.kind).value_or(Kind::zero);
  f.axis = Axis::n;
  f.nominal_mm = stored.true_mm;
  return f;
}

}  // namespace

Result<Evening> evening_of(record::Record& record, const Id& setup, const Id& caliper) {
  Evening evening;
  evening.setup = setup;
  evening.caliper = caliper;
  auto found = record::all_of<record::Copy>(record, "setup", setup);
  if (!found) return found.problems();
  if (found->empty()) return evening;

  // The newest copy says in which state; those of another state are another calibration.
  const auto newer = [](const Kept<record::Copy>& a, const Kept<record::Copy>& b) {
    return std::pair(a.value.printed_on, a.thing) < std::pair(b.value.printed_on, b.thing);
  };
  const auto newest = std::max_element(found->begin(), found->end(), newer);
  const auto state = parse_state(newest->value.state, "the record");
  if (!state) return state.problems();
  evening.printed_with = *state;
  std::size_t left_out = 0;
  for (const Kept<record::Copy>& copy : *found) {
    const auto its = parse_state(copy.value.state, "the record");
    if (its && record::differences(*its, *state).empty())
      evening.copies.push_back(copy);
    else
      ++left_out;
  }
  if (left_out)
    evening.notes.push_back(
        said_many("{} copy was printed with other settings and left out here; History shows them.",
                  "{} copies were printed with other settings and left out here; History shows them.", left_out));

  auto parts = printed_parts(record, evening.copies);
  if (!parts) return parts.problems();
  std::map<Id, std::size_t> part_of;
  for (std::size_t i = 0; i < parts->size(); ++i) {
    const PrintedPart& part = (*parts)[i];
    part_of[part.copy] = i;
    for (const auto& [shown, stored] : part.stored_id) {
      evening.copy_of[{part.part.copy, shown}] = part.copy;
      evening.feature_of[{part.part.copy, shown}] = stored;
    }
  }

  // Steel of the session that goes on; earlier ones stand beside it under the date of their evening.
  auto sessions = record::all_of<record::Session>(record, "setup", setup);
  if (!sessions) return sessions.problems();
  std::sort(sessions->begin(), sessions->end(),
            [](const auto& a, const auto& b) { return a.value.began < b.value.began; });
  std::vector<SteelPiece> pieces;
  Feature zero;
  zero.id = "Z0";
  zero.kind = Kind::zero;
  zero.axis = Axis::n;
  pieces.push_back({zero});
  ReadingSet readings;
  std::set<std::string> gauges;
  std::map<ReadingKey, Kept<record::SteelReading>> steel_rows;
  std::set<Id> with_readings_here;
  for (const Kept<record::Copy>& copy : evening.copies) {
    auto rows = record::all_of<record::StoredReading>(record, "copy", copy.thing);
    if (!rows) return rows.problems();
    const PrintedPart& part = (*parts)[part_of.at(copy.thing)];
    for (Kept<record::StoredReading>& row : *rows) {
      with_readings_here.insert(row.value.session);
      if (row.value.standing != "read" || !row.value.reading_mm) continue;
      const Feature* feature = part.feature(row.value.feature_id);
      if (!feature) {
        evening.notes.push_back(said("A reading of {} is not on the coupon and left out here.", row.value.feature_id));
        continue;
      }
      const Reading r = reading_of(*feature, row.value, part.part.copy, part.part.turned_deg);
      if (evening.readings.emplace(key_of(r), row).second) readings.rows.push_back(r);
    }
  }
  std::set<std::string> dates;  // of evenings whose steel stands here
  for (const Kept<record::Session>& session : *sessions) {
    if (!with_readings_here.contains(session.thing) && &session != &sessions->back()) continue;
    const bool goes_on = &session == &sessions->back() && session.value.caliper == caliper &&
                         hours_between(session.value.began, record::now_utc()) < session_pause_h;
    if (goes_on) evening.session = session.thing;
    auto rows = record::all_of<record::SteelReading>(record, "session", session.thing);
    if (!rows) return rows.problems();
    // Two evenings of one day are told apart by when they began: none of their readings may be lost.
    constexpr std::size_t date = 10, time = 16;
    std::string when = session.value.began.substr(0, date);
    if (!rows->empty() && !dates.insert(when).second) when = session.value.began.substr(0, time);
    std::replace(when.begin(), when.end(), 'T', ' ');
    for (Kept<record::SteelReading>& row : *rows) {
      Reading r;
      r.feature = steel_feature(row.value);
      r.repeat = row.value.repeat;
      r.reading_mm = row.value.reading_mm;
      r.note = row.value.note;
      if (r.feature.kind != Kind::zero && gauges.insert(r.feature.id).second) pieces.push_back({r.feature});
      if (!goes_on) r.feature.id += " on " + when;
      if (!steel_rows.emplace(key_of(r), row).second) continue;
      readings.rows.push_back(r);
    }
  }
  evening.steel = std::move(steel_rows);

  std::vector<PartCopy> to_measure;
  for (const PrintedPart& part : *parts) to_measure.push_back(part.part);
  auto plan = plan_measuring(to_measure, pieces);
  if (!plan) return plan.problems();
  auto resumed = with_readings(std::make_shared<const MeasurePlan>(*std::move(plan)), readings);
  if (!resumed) return resumed.problems();
  evening.kept = std::move(resumed->measuring);
  return record::guarded(record, [&]() -> Result<Evening> {
    if (const auto bookmark = stored_bookmark(record, setup)) evening.kept = with_bookmark(evening.kept, *bookmark);
    return std::move(evening);
  });
}

namespace {

/// The record's rows of an evening while they are written: taken over only when all went well.
struct Keeping {
  record::Record& record;
  Evening next;

  template <class T>
  Result<Done> change(std::map<ReadingKey, Kept<T>>& rows, const ReadingChange& change, const T& value) {
    const auto there = rows.find(change.key);
    switch (change.what) {
      case ReadingChange::What::added: {
        if (there != rows.end()) throw std::logic_error("a reading added twice: " + change.key.feature_id);
        auto kept = record::add(record, value);
        if (!kept) return kept.problems();
        rows.emplace(change.key, *std::move(kept));
        return Done{};
      }
      case ReadingChange::What::amended: {
        auto kept = record::amend(record, there->second, value, change.why);
        if (!kept) return kept.problems();
        there->second = *std::move(kept);
        return Done{};
      }
      case ReadingChange::What::removed: {
        auto ended = record::end(record, there->second, change.why.empty() ? "taken back" : change.why);
        if (!ended) return ended.problems();
        rows.erase(there);
        return Done{};
      }
    }
    return Done{};
  }

  Result<Done> begin_session() {
    if (!next.session.empty()) return Done{};
    record::Session session;
    session.setup = next.setup;
    session.caliper = next.caliper;
    session.began = record::now_utc();
    auto kept = record::add(record, session);
    if (!kept) return kept.problems();
    next.session = kept->thing;
    return Done{};
  }

  Result<Done> take(const ReadingChange& change) {
    const Reading& r = change.reading;
    const auto there_session = [&](const auto& rows) {
      const auto it = rows.find(change.key);
      return it == rows.end() ? next.session : it->second.value.session;
    };
    if (is_steel(r.feature.kind)) {
      record::SteelReading row;
      const auto there = next.steel.find(change.key);
      if (there != next.steel.end())
        row = there->second.value;
      else {
        row.caliper = next.caliper;
        row.session = next.session;
        row.kind = word(r.feature.kind);
        row.feature_id = r.feature.id;
        row.true_mm = r.feature.nominal_mm;
        row.repeat = r.repeat;
      }
      row.reading_mm = r.reading_mm;
      row.note = r.note;
      return this->change(next.steel, change, row);
    }
    const std::pair key(change.key.copy, change.key.feature_id);
    const auto copy = next.copy_of.find(key);
    if (copy == next.copy_of.end())
      return Problem{Code::bad_input,
                     {},
                     said("{} is not on this setup's coupons", change.key.feature_id),
                     tr("choose its coupon under Make")};
    record::StoredReading row;
    row.copy = copy->second;
    row.session = there_session(next.readings);
    row.feature_id = next.feature_of.at(key);
    row.repeat = r.repeat;
    row.reading_mm = r.reading_mm;
    row.step_mm = r.step_mm;
    row.part_c = r.part_c;
    row.note = r.note;
    return this->change(next.readings, change, row);
  }
};

}  // namespace

Result<Done> keep(record::Record& record, Evening& evening, const Measuring& now) {
  return record::guarded(record, [&]() -> Result<Done> {
    const std::vector<ReadingChange> changes = changes_between(evening.kept, now);
    const std::string bookmark = bookmark_of(now);
    if (changes.empty() && bookmark == bookmark_of(evening.kept)) {
      evening.kept = now;
      return Done{};
    }
    Keeping keeping{record, evening};
    record::Transaction whole(record.database());
    const bool adds =
        std::any_of(changes.begin(), changes.end(), [](const auto& c) { return c.what == ReadingChange::What::added; });
    if (adds)
      if (auto began = keeping.begin_session(); !began) return began;
    for (const ReadingChange& change : changes)
      if (auto done = keeping.take(change); !done) return done;
    store_bookmark(record, evening.setup, bookmark);
    whole.commit();
    evening = std::move(keeping.next);
    evening.kept = now;
    return Done{};
  });
}

}  // namespace fitwright
