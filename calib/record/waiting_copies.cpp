#include "record/waiting_copies.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "reading/features_csv.hpp"

namespace fitwright::record {
namespace {

constexpr double six_digits = 5e-6;  ///< rounding to six significant digits, at most, as a ratio

using Features = std::vector<Feature>;

/// A copy of the setup with its coupon's features.
struct Known {
  Kept<Copy> copy;
  Features features;
  bool waits = false;  ///< nothing was read on it
};

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

const Feature* same_in(const Features& features, const Feature& f) {
  const auto found = std::find_if(features.begin(), features.end(), [&](const Feature& g) {
    return g.id == f.id && g.kind == f.kind && g.axis == f.axis &&
           std::abs(g.nominal_mm - f.nominal_mm) <= six_digits * std::abs(g.nominal_mm);
  });
  return found == features.end() ? nullptr : &*found;
}

/// Whether `features` has all that was read.
bool fits(const Features& features, const ReadingSet& read) {
  return std::all_of(read.rows.begin(), read.rows.end(), [&](const Reading& r) {
    return is_steel(r.feature.kind) || same_in(features, r.feature) != nullptr;
  });
}

int turned(const ReadingSet& read) {
  const auto printed =
      std::find_if(read.rows.begin(), read.rows.end(), [](const Reading& r) { return !is_steel(r.feature.kind); });
  return printed == read.rows.end() ? 0 : printed->turned_deg;
}

/// The readings with the features as the coupon has them, where they are the same.
ReadingSet with_features_of(const Features& features, ReadingSet read) {
  for (Reading& r : read.rows)
    if (const Feature* same = is_steel(r.feature.kind) ? nullptr : same_in(features, r.feature)) r.feature = *same;
  return read;
}

Result<Features> features_of(Record& record, const Id& coupon) {
  const auto kept = one<MadeCoupon>(record, coupon);
  if (!kept) return kept.problems();
  return parse_features(kept->value.features, "features of coupon " + kept->value.design);
}

/// The copies of a setup, by print.
Result<std::vector<Known>> copies_of_setup(Record& record, const Id& setup) {
  const auto copies = all_of<Copy>(record, "setup", setup);
  if (!copies) return copies.problems();
  std::vector<Known> out;
  for (const auto& copy : *copies) {
    auto features = features_of(record, copy.value.coupon);
    if (!features) return features.problems();
    const auto readings = all_of<StoredReading>(record, "copy", copy.thing);
    if (!readings) return readings.problems();
    out.push_back({copy, std::move(*features), readings->empty()});
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const Known& a, const Known& b) { return a.copy.value.print < b.copy.value.print; });
  return out;
}

/// The setup's copy that has these readings already, by keep_readings' own judgement: tried and taken back.
Id known_copy(Record& record, const ReadingSet& read, KeepOptions options, const std::vector<Known>& copies) {
  std::set<Id> tried;
  for (const Known& of : copies) {
    options.coupon = of.copy.value.coupon;
    if (of.waits || !fits(of.features, read) || !tried.insert(options.coupon).second) continue;
    const Transaction trial(record.database());
    const auto kept = keep_readings(record, with_features_of(of.features, read), options);
    if (!kept || kept->copies.size() != 1) continue;
    for (const Known& known : copies)
      if (known.copy.thing == kept->copies.front()) return known.copy.thing;
  }
  return {};
}

/// Where the readings of one copy go: options for keep_readings, and the features there.
struct Where {
  KeepOptions options;
  Features features;
  bool known = false;  ///< read before: in the session of that evening
};

Where place_for(Record& record, const ReadingSet& read, const KeepOptions& options, std::vector<Known>& copies) {
  const auto take = [&](const Known& known) {
    Where out{options, known.features, !known.waits};
    out.options.copy = known.copy.thing;
    std::erase_if(copies, [&](const Known& c) { return c.copy.thing == out.options.copy; });
    return out;
  };
  if (const Id id = known_copy(record, read, options, copies); !id.empty())
    return take(*std::find_if(copies.begin(), copies.end(), [&](const Known& c) { return c.copy.thing == id; }));
  for (const Known& known : copies)
    if (known.waits && known.copy.value.turned_deg == turned(read) && fits(known.features, read)) return take(known);
  return {options, {}, false};
}

void add_to(KeptReadings& all, const KeptReadings& part) {
  all.coupon = part.coupon;
  if (all.session.empty()) all.session = part.session;
  all.copies.insert(all.copies.end(), part.copies.begin(), part.copies.end());
  all.added += part.added;
  all.known += part.known;
  all.amended += part.amended;
  all.notes.insert(all.notes.end(), part.notes.begin(), part.notes.end());
}

Result<KeptReadings> as_asked(Record& record, const ReadingSet& readings, const KeepOptions& options) {
  Id coupon = options.coupon;
  if (!options.copy.empty()) {
    const auto copy = one<Copy>(record, options.copy);
    if (!copy) return copy.problems();
    coupon = copy->value.coupon;
  }
  const auto features = features_of(record, coupon);
  if (!features) return features.problems();
  return keep_readings(record, with_features_of(*features, readings), options);
}

}  // namespace

Result<KeptReadings> keep_on_waiting_copies(Record& record, const ReadingSet& readings, const KeepOptions& options) {
  return guarded(record, [&]() -> Result<KeptReadings> {
    if (!options.copy.empty() || !options.coupon.empty()) return as_asked(record, readings, options);
    const auto parts = by_copy(readings);
    if (parts.empty()) return keep_readings(record, readings, options);
    auto copies = copies_of_setup(record, options.setup);
    if (!copies) return copies.problems();
    const std::vector<Known> all_copies = *copies;
    std::vector<Where> places;
    bool all_new = true;
    for (const auto& [number, part] : parts) {
      places.push_back(place_for(record, part, options, *copies));
      all_new = all_new && places.back().options.copy.empty();
    }
    const auto newest = std::find_if(all_copies.rbegin(), all_copies.rend(),
                                     [&](const Known& known) { return fits(known.features, readings); });
    if (all_new && newest == all_copies.rend()) return keep_readings(record, readings, options);
    Transaction whole(record.database());
    KeptReadings all;
    Id this_evening;
    auto place = places.begin();
    for (const auto& [number, part] : parts) {
      if (place->options.copy.empty() && newest != all_copies.rend()) {
        place->options.coupon = newest->copy.value.coupon;
        place->features = newest->features;
      }
      if (!place->known && place->options.session.empty()) place->options.session = this_evening;
      const auto kept = keep_readings(record, with_features_of(place->features, part), place->options);
      if (!kept) return kept;
      if (!place->known) this_evening = kept->session;
      add_to(all, *kept);
      ++place;
    }
    whole.commit();
    return all;
  });
}

}  // namespace fitwright::record
