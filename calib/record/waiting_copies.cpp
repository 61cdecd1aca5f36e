#include "record/waiting_copies.hpp"

#include <algorithm>
#include <map>

#include "reading/features_csv.hpp"

namespace fitwright::record {
namespace {

/// The file taken apart: the readings of each copy; steel goes with the first.
std::map<int, ReadingSet> by_copy(const ReadingSet& all) {
  std::map<int, ReadingSet> out;
  for (const Reading& r : all.rows)
    if (!is_steel(r.feature.kind)) out[r.copy].rows.push_back(r);
  for (auto& [number, set] : out) set.source = all.source;
  if (!out.empty())
    for (const Reading& r : all.rows)
      if (is_steel(r.feature.kind)) out.begin()->second.rows.push_back(r);
  return out;
}

/// Whether the coupon of `copy` has every feature that was read, and it lay the same way.
bool fits(Record& record, const Kept<Copy>& copy, const ReadingSet& read) {
  const auto coupon = one<MadeCoupon>(record, copy.value.coupon);
  if (!coupon) return false;
  const auto features = parse_features(coupon->value.features, "record");
  if (!features) return false;
  return std::all_of(read.rows.begin(), read.rows.end(), [&](const Reading& r) {
    if (is_steel(r.feature.kind)) return true;
    return r.turned_deg == copy.value.turned_deg && std::any_of(features->begin(), features->end(), [&](const auto& f) {
             return f.id == r.feature.id && f.kind == r.feature.kind && f.axis == r.feature.axis &&
                    f.nominal_mm == r.feature.nominal_mm;
           });
  });
}

/// The copies of a setup on which nothing was read, by print.
Result<std::vector<Kept<Copy>>> waiting(Record& record, const Id& setup) {
  auto copies = all_of<Copy>(record, "setup", setup);
  if (!copies) return copies.problems();
  std::vector<Kept<Copy>> out;
  for (const auto& copy : *copies) {
    const auto readings = all_of<StoredReading>(record, "copy", copy.thing);
    if (!readings) return readings.problems();
    if (readings->empty()) out.push_back(copy);
  }
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.value.print < b.value.print; });
  return out;
}

/// For each copy of the file the one it goes to; empty when one does not fit any.
std::vector<Kept<Copy>> matched(Record& record, const std::map<int, ReadingSet>& parts, std::vector<Kept<Copy>> free) {
  std::vector<Kept<Copy>> out;
  for (const auto& [number, part] : parts) {
    const auto to = std::find_if(free.begin(), free.end(), [&](const auto& c) { return fits(record, c, part); });
    if (to == free.end()) return {};
    out.push_back(*to);
    free.erase(to);
  }
  return out;
}

}  // namespace

Result<KeptReadings> keep_on_waiting_copies(Record& record, const ReadingSet& readings, const KeepOptions& options) {
  if (!options.copy.empty()) return keep_readings(record, readings, options);
  return guarded(record, [&]() -> Result<KeptReadings> {
    const auto before = all_of<Copy>(record, "setup", options.setup);
    if (!before) return before.problems();
    const auto free = waiting(record, options.setup);
    if (!free) return free.problems();
    const auto parts = by_copy(readings);
    const auto to = matched(record, parts, *free);
    if (to.empty()) return keep_readings(record, readings, options);
    {
      Transaction trial(record.database());  // whether the file's copies are known is keep_readings' to say
      auto kept = keep_readings(record, readings, options);
      if (!kept) return kept;
      const bool known = std::all_of(kept->copies.begin(), kept->copies.end(), [&](const Id& id) {
        return std::any_of(before->begin(), before->end(), [&](const auto& copy) { return copy.thing == id; });
      });
      if (known) {
        trial.commit();
        return kept;
      }
    }
    Transaction whole(record.database());
    KeptReadings all;
    KeepOptions one_copy = options;
    auto copy = to.begin();
    for (const auto& [number, part] : parts) {
      one_copy.copy = (copy++)->thing;
      const auto kept = keep_readings(record, part, one_copy);
      if (!kept) return kept;
      one_copy.session = all.session = kept->session;
      all.coupon = kept->coupon;
      all.copies.insert(all.copies.end(), kept->copies.begin(), kept->copies.end());
      all.added += kept->added;
      all.known += kept->known;
      all.amended += kept->amended;
      all.notes.insert(all.notes.end(), kept->notes.begin(), kept->notes.end());
    }
    whole.commit();
    return all;
  });
}

}  // namespace fitwright::record
