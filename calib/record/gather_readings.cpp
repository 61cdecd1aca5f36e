// From the record's readings to what the estimator takes.

#include <algorithm>
#include <cmath>
#include <set>

#include "base/number.hpp"
#include "base/text.hpp"
#include "reading/features_csv.hpp"
#include "record/copy_names.hpp"
#include "record/reading_set.hpp"
#include "record/state_in_force.hpp"

namespace fitwright::record {
namespace {

/// A copy with all that is known of it.
struct Specimen {
  Kept<Copy> copy;
  State state;
  std::vector<Kept<StoredReading>> readings;  ///< those with a value
  Kept<MadeCoupon> coupon;
  std::vector<Feature> features;
};

/// When it was printed, as far as that is known; for comparing.
std::string printed(const Specimen& s) {
  constexpr std::size_t date = 10;
  return s.copy.value.printed_on.empty() ? s.copy.at.substr(0, date) : s.copy.value.printed_on;
}

std::string print_name(const Specimen& s) {
  return "print " + std::to_string(s.copy.value.print) + " (" + s.coupon.value.design + ')';
}

Result<Specimen> specimen(Record& record, const Kept<Copy>& copy) {
  Specimen out{copy, {}, {}, {}, {}};
  Problems problems;
  if (!copy.value.state.empty()) {
    auto state = parse_state(copy.value.state, record.path());
    if (state) out.state = *state;
    for (Problem p : state ? Problems{} : state.problems()) {
      p.what = "the state of print " + std::to_string(copy.value.print) + " in the record: " + p.what;
      problems.push_back(p);
    }
  }
  auto coupon = one<MadeCoupon>(record, copy.value.coupon);
  if (!coupon) return coupon.problems();
  out.coupon = std::move(*coupon);
  auto features = parse_features(out.coupon.value.features, "features of coupon " + out.coupon.value.design);
  if (features) out.features = std::move(*features);
  if (!features) problems.insert(problems.end(), features.problems().begin(), features.problems().end());
  if (!problems.empty()) return problems;
  auto readings = all_of<StoredReading>(record, "copy", copy.thing);
  if (!readings) return readings.problems();
  std::copy_if(readings->begin(), readings->end(), std::back_inserter(out.readings),
               [](const Kept<StoredReading>& r) { return r.value.reading_mm.has_value(); });
  return out;
}

/// Which specimens take part; what does not is told in `out`.
Result<std::vector<Specimen>> chosen(std::vector<Specimen> all, const std::vector<Id>& wished, GatheredReadings& out) {
  std::vector<Specimen> taken;
  for (const Id& id : wished) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Specimen& s) { return s.copy.thing == id; });
    if (found == all.end())
      return Problem{Code::bad_input, {}, "copy " + quote(id.text) + " is not one of this setup", "list its copies"};
  }
  const Specimen* newest = nullptr;
  for (const Specimen& s : all) {
    const bool asked = wished.empty() || std::find(wished.begin(), wished.end(), s.copy.thing) != wished.end();
    if (!asked || s.readings.empty()) continue;
    if (!newest || std::pair(printed(s), s.copy.value.print) >= std::pair(printed(*newest), newest->copy.value.print))
      newest = &s;
  }
  if (!newest)
    return Problem{Code::unanswerable,
                   {},
                   all.empty() ? "no copy was printed with this setup yet" : "nothing was read on these copies yet",
                   "print a coupon, measure it and keep the readings"};
  out.printed_with = newest->state;
  const std::string newest_name = print_name(*newest);
  for (Specimen& s : all) {
    const auto differing = differences(s.state, out.printed_with);
    if (!wished.empty() && std::find(wished.begin(), wished.end(), s.copy.thing) == wished.end()) {
      out.left_out.push_back({s.copy, print_name(s) + " was not asked for"});
    } else if (s.readings.empty()) {
      out.left_out.push_back({s.copy, "nothing was read on " + print_name(s)});
    } else if (!differing.empty() && wished.empty()) {
      out.left_out.push_back({s.copy, print_name(s) + " was printed with other settings than " + newest_name + ": " +
                                          in_words(differing)});
    } else if (!differing.empty()) {
      return Problem{
          Code::unanswerable,
          {},
          print_name(s) + " and " + newest_name + " were printed with different settings: " + in_words(differing),
          "estimate them apart: copies of one estimate share their settings"};
    } else {
      taken.push_back(std::move(s));
    }
  }
  std::stable_sort(taken.begin(), taken.end(),
                   [](const Specimen& a, const Specimen& b) { return a.copy.value.print < b.copy.value.print; });
  return taken;
}

/// Copy numbers and names in front of feature ids, in the order of `specimens`.
std::vector<CopyName> names_of(const std::vector<Specimen>& specimens) {
  std::vector<CopyToName> copies;
  for (const Specimen& s : specimens) {
    copies.push_back({s.copy.value.print, s.coupon.value.design, s.coupon.value.features, {}});
    for (const Feature& f : s.features) copies.back().feature_ids.push_back(f.id);
  }
  return copy_names(copies);
}

class Gathering {
 public:
  Gathering(Record& record, GatheredReadings& out) : record_(record), out_(out) {}

  void printed_rows(const std::vector<Specimen>& specimens) {
    const std::vector<CopyName> names = names_of(specimens);
    for (std::size_t i = 0; i < specimens.size(); ++i) {
      const Specimen& s = specimens[i];
      if (names[i].not_print)
        out_.notes.push_back("The same coupon was printed twice in print " + std::to_string(s.copy.value.print) +
                             ": its second copy counts as copy " + std::to_string(names[i].number) +
                             ", so that copies may look more alike than separate prints would.");
      rows_of(s, names[i].number, names[i].prefix);
      out_.copies.push_back(s.copy);
    }
  }

  Result<Done> steel_rows() {
    std::set<std::string> calipers;
    for (const Id& id : sessions_) {
      const auto session = one<Session>(record_, id);
      if (!session) return session.problems();
      calipers.insert(session->value.caliper.text);
      const auto steel = all_of<SteelReading>(record_, "session", id);
      if (!steel) return steel.problems();
      for (const auto& kept : *steel) add_steel(kept, id);
    }
    if (calipers.size() > 1)
      out_.notes.push_back("These readings were taken with more than one caliper; the zero is taken as one.");
    return Done{};
  }

 private:
  void rows_of(const Specimen& s, int number, const std::string& prefix) {
    std::set<std::pair<std::string, int>> used;  // feature and repeat
    std::vector<std::string> unknown;
    for (const auto& kept : s.readings) {
      const StoredReading& stored = kept.value;
      const auto feature = std::find_if(s.features.begin(), s.features.end(),
                                        [&](const Feature& f) { return f.id == stored.feature_id; });
      if (feature == s.features.end()) {
        unknown.push_back(stored.feature_id);
        continue;
      }
      Reading r;
      r.feature = *feature;
      r.feature.id = prefix + feature->id;
      r.feature.label.clear();  // for people; no part of a reading
      r.copy = number;
      r.repeat = free_repeat(used, stored.feature_id, stored.repeat);
      r.reading_mm = *stored.reading_mm;
      r.turned_deg = s.copy.value.turned_deg;
      r.step_mm = stored.step_mm;
      r.part_c = stored.part_c;
      r.note = stored.note;
      add(std::move(r), {kept.thing, s.copy.thing, stored.session, false});
      if (!stored.session.empty() && std::find(sessions_.begin(), sessions_.end(), stored.session) == sessions_.end())
        sessions_.push_back(stored.session);
    }
    if (unknown.empty()) return;
    out_.notes.push_back(std::to_string(unknown.size()) + " readings of " + print_name(s) +
                         " are of features that its coupon does not have (" + unknown.front() +
                         (unknown.size() > 1 ? ", ..." : "") + "): left out.");
  }

  void add_steel(const Kept<SteelReading>& kept, const Id& session) {
    const auto kind = kind_from(kept.value.kind);
    if (!kind || !is_steel(*kind)) return;
    Reading r;
    r.feature.id = kept.value.feature_id;
    r.feature.kind = *kind;
    r.feature.axis = Axis::n;
    r.feature.nominal_mm = kept.value.true_mm;
    const auto [known, is_new] = steel_.emplace(r.feature.id, std::pair(*kind, kept.value.true_mm));
    const bool printed_too =
        std::any_of(out_.readings.rows.begin(), out_.readings.rows.end(), [&](const Reading& other) {
          return !is_steel(other.feature.kind) && other.feature.id == kept.value.feature_id;
        });
    if (printed_too || (!is_new && known->second != std::pair(*kind, kept.value.true_mm)))
      r.feature.id = kept.value.kind + ' ' + shortest(kept.value.true_mm) + ' ' + r.feature.id;
    r.repeat = free_repeat(steel_repeats_, r.feature.id, kept.value.repeat);
    r.reading_mm = kept.value.reading_mm;
    r.note = kept.value.note;
    if (*kind != Kind::zero) out_.true_size_mm[r.feature.id] = kept.value.true_mm;
    add(std::move(r), {kept.thing, {}, session, true});
  }

  /// The repeat as it was, or the next that is free where a place was read on two evenings.
  static int free_repeat(std::set<std::pair<std::string, int>>& used, const std::string& id, int repeat) {
    while (!used.emplace(id, repeat).second) ++repeat;
    return repeat;
  }

  void add(Reading r, RowOrigin origin) {
    out_.readings.rows.push_back(std::move(r));
    out_.origins.push_back(std::move(origin));
  }

  Record& record_;
  GatheredReadings& out_;
  std::vector<Id> sessions_;
  std::map<std::string, std::pair<Kind, double>> steel_;
  std::set<std::pair<std::string, int>> steel_repeats_;
};

}  // namespace

Result<GatheredReadings> readings_for(Record& record, const Id& setup, const std::vector<Id>& copies) {
  return guarded(record, [&]() -> Result<GatheredReadings> {
    const auto kept = one<Setup>(record, setup);
    if (!kept) return kept.problems();
    const auto all = all_of<Copy>(record, "setup", setup);
    if (!all) return all.problems();
    std::vector<Specimen> specimens;
    Problems problems;
    for (const auto& copy : *all) {
      auto read = specimen(record, copy);
      if (read)
        specimens.push_back(std::move(*read));
      else
        problems.insert(problems.end(), read.problems().begin(), read.problems().end());
    }
    if (!problems.empty()) return problems;

    GatheredReadings out;
    out.readings.source = kept->value.name;
    const auto taken = chosen(std::move(specimens), copies, out);
    if (!taken) return taken.problems();
    Gathering gathering(record, out);
    gathering.printed_rows(*taken);
    if (const auto steel = gathering.steel_rows(); !steel) return steel.problems();
    if (out.readings.rows.empty())
      return Problem{Code::unanswerable, {}, "nothing was read on these copies yet", "measure them"};
    return out;
  });
}

}  // namespace fitwright::record
