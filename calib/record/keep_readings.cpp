// From a readings file into the record.

#include <algorithm>
#include <cmath>
#include <set>

#include "base/number.hpp"
#include "base/text.hpp"
#include "reading/features_csv.hpp"
#include "record/kept_estimate.hpp"
#include "record/reading_set.hpp"

namespace fitwright::record {
namespace {

/// A copy is the same one when at least this share of the readings that file and record have in common are equal: two
/// copies of one coupon agree on about one in ten at 0.01 mm, a file with a few slips put right on nearly all.
constexpr double same_copy_share = 0.8;
constexpr const char* from_file = "from file";

using Key = std::pair<std::string, int>;  // feature and repeat

bool same_feature(const Feature& a, const Feature& b) {
  return a.id == b.id && a.kind == b.kind && a.axis == b.axis && a.nominal_mm == b.nominal_mm &&
         a.side_a_mm == b.side_a_mm && a.side_b_mm == b.side_b_mm && a.facets == b.facets && a.edge_a == b.edge_a &&
         a.edge_b == b.edge_b;
}

const Feature* feature_called(const std::vector<Feature>& features, const std::string& id) {
  const auto found = std::find_if(features.begin(), features.end(), [&](const Feature& f) { return f.id == id; });
  return found == features.end() ? nullptr : &*found;
}

/// Whether every feature of `a` is one of `b`, the same in all.
bool contains(const std::vector<Feature>& b, const std::vector<Feature>& a) {
  return std::all_of(a.begin(), a.end(), [&](const Feature& f) {
    const Feature* other = feature_called(b, f.id);
    return other && same_feature(*other, f);
  });
}

/// What a file says of one copy.
struct FileCopy {
  int number = 1;
  int turned_deg = 0;
  std::vector<const Reading*> rows;
};

/// What the record holds of one copy.
struct RecordCopy {
  Kept<Copy> copy;
  std::map<Key, Kept<StoredReading>> readings;
};

/// How well a copy of the file fits one of the record: readings that agree, or 0 when they are not the same copy.
int agreement(const FileCopy& file, const RecordCopy& kept) {
  if (file.turned_deg != kept.copy.value.turned_deg) return 0;
  int common = 0, equal = 0;
  for (const Reading* r : file.rows) {
    const auto found = kept.readings.find({r->feature.id, r->repeat});
    if (found == kept.readings.end() || !found->second.value.reading_mm) continue;
    ++common;
    equal += *found->second.value.reading_mm == r->reading_mm;
  }
  return common > 0 && equal >= same_copy_share * common ? equal : 0;
}

StoredReading stored(const Reading& r, const Id& copy, const Id& session) {
  StoredReading s;
  s.copy = copy;
  s.session = session;
  s.feature_id = r.feature.id;
  s.repeat = r.repeat;
  s.reading_mm = r.reading_mm;
  s.step_mm = r.step_mm;
  s.part_c = r.part_c;
  s.note = r.note;
  return s;
}

class Keeping {
 public:
  Keeping(Record& record, const ReadingSet& set, const KeepOptions& options)
      : record_(record), set_(set), options_(options) {}

  /// Within a transaction of the caller.
  Result<KeptReadings> keep() {
    take_apart();
    Problems problems = copies_of_setup();
    if (problems.empty()) problems = find_coupon();
    if (!problems.empty()) return problems;
    for (const FileCopy& file : file_copies_)
      if (problems = keep_copy(file); !problems.empty()) return problems;
    if (problems = keep_steel(); !problems.empty()) return problems;
    out_.session = session_;
    return std::move(out_);
  }

 private:
  void take_apart() {
    int empty = 0;
    for (const Reading& r : set_.rows) {
      if (!std::isfinite(r.reading_mm)) {
        ++empty;
      } else if (is_steel(r.feature.kind)) {
        steel_.push_back(&r);
      } else {
        auto copy = std::find_if(file_copies_.begin(), file_copies_.end(),
                                 [&](const FileCopy& c) { return c.number == r.copy; });
        if (copy == file_copies_.end()) copy = file_copies_.insert(copy, {r.copy, r.turned_deg, {}});
        copy->rows.push_back(&r);
        if (!feature_called(features_, r.feature.id)) features_.push_back(r.feature);
      }
    }
    std::sort(file_copies_.begin(), file_copies_.end(),
              [](const FileCopy& a, const FileCopy& b) { return a.number < b.number; });
    if (empty > 0) out_.notes.push_back(std::to_string(empty) + " rows without a reading were left out.");
  }

  Problems copies_of_setup() {
    if (!options_.copy.empty() && file_copies_.size() > 1)
      return {{Code::bad_input,
               {set_.source, 0, 0},
               "the file holds " + std::to_string(file_copies_.size()) + " copies, but is to go to one",
               "give a file of one copy, or name none"}};
    const auto all = all_of<Copy>(record_, "setup", options_.setup);
    if (!all) return all.problems();
    for (const auto& copy : *all) {
      highest_print_ = std::max(highest_print_, copy.value.print);
      const auto readings = all_of<StoredReading>(record_, "copy", copy.thing);
      if (!readings) return readings.problems();
      RecordCopy& known = record_copies_.emplace_back(RecordCopy{copy, {}});
      for (const auto& r : *readings) known.readings.emplace(Key{r.value.feature_id, r.value.repeat}, r);
    }
    return {};
  }

  /// The coupon the file's features belong to: named, or found again, or made.
  Problems find_coupon() {
    if (file_copies_.empty()) return {};
    if (!options_.copy.empty()) {
      const auto copy = one<Copy>(record_, options_.copy);
      if (!copy) return copy.problems();
      out_.coupon = copy->value.coupon;
      return must_have_features(copy->value.coupon);
    }
    if (!options_.coupon.empty()) {
      out_.coupon = options_.coupon;
      return must_have_features(options_.coupon);
    }
    const std::string text = to_features_csv(features_);
    const auto coupons = all<MadeCoupon>(record_);
    if (!coupons) return coupons.problems();
    for (const auto& coupon : *coupons)
      if (coupon.value.design == from_file && coupon.value.features == text) {
        out_.coupon = coupon.thing;
        return {};
      }
    for (const auto& coupon : *coupons)  // a file that grew, or part of one
      if (coupon.value.design == from_file && holds_a_copy_of(coupon)) return grown(coupon);
    MadeCoupon made;
    made.design = from_file;
    made.parameters = "{}";
    made.features = text;
    made.file_hash = content_hash(text);
    const auto kept = add(record_, made, options_.at);
    if (!kept) return kept.problems();
    out_.coupon = kept->thing;
    return {};
  }

  Problems must_have_features(const Id& coupon) {
    const auto kept = one<MadeCoupon>(record_, coupon);
    if (!kept) return kept.problems();
    const auto has = parse_features(kept->value.features, "features of coupon " + kept->value.design);
    if (!has) return has.problems();
    Problems problems;
    for (const Feature& f : features_) {
      const Feature* known = feature_called(*has, f.id);
      const bool alike = known && known->kind == f.kind && known->axis == f.axis && known->nominal_mm == f.nominal_mm;
      if (alike) continue;
      const auto row =
          std::find_if(set_.rows.begin(), set_.rows.end(), [&](const Reading& r) { return r.feature.id == f.id; });
      problems.push_back({Code::bad_input,
                          {set_.source, row->row, 0},
                          known ? quote(f.id) + " is " + std::string(word(f.kind)) + " of " + shortest(f.nominal_mm) +
                                      " mm here, but " + std::string(word(known->kind)) + " of " +
                                      shortest(known->nominal_mm) + " mm on the coupon " + kept->value.design
                                : "the coupon " + kept->value.design + " has no feature " + quote(f.id),
                          "name the coupon that was measured, or none"});
    }
    return problems;
  }

  [[nodiscard]] bool holds_a_copy_of(const Kept<MadeCoupon>& coupon) const {
    const auto has = parse_features(coupon.value.features, "record");
    if (!has || !(contains(*has, features_) || contains(features_, *has))) return false;
    for (const RecordCopy& kept : record_copies_)
      for (const FileCopy& file : file_copies_)
        if (kept.copy.value.coupon == coupon.thing && agreement(file, kept) > 0) return true;
    return false;
  }

  /// The coupon with the features that the file has besides.
  Problems grown(const Kept<MadeCoupon>& coupon) {
    out_.coupon = coupon.thing;
    auto has = parse_features(coupon.value.features, "record");
    if (!has) return has.problems();
    for (const Feature& f : features_)
      if (!feature_called(*has, f.id)) has->push_back(f);
    MadeCoupon more = coupon.value;
    more.features = to_features_csv(*has);
    more.file_hash = content_hash(more.features);
    const auto kept = amend(record_, coupon, more, "more of its features were read", options_.at);
    return kept ? Problems{} : kept.problems();
  }

  Problems keep_copy(const FileCopy& file) {
    RecordCopy* best = nullptr;
    int most = 0;
    for (RecordCopy& kept : record_copies_) {
      if (!options_.copy.empty()) {
        if (kept.copy.thing == options_.copy) best = &kept;
        continue;
      }
      const bool taken = std::find(out_.copies.begin(), out_.copies.end(), kept.copy.thing) != out_.copies.end();
      if (taken || kept.copy.value.coupon != out_.coupon) continue;
      if (const int agree = agreement(file, kept); agree > most) {
        most = agree;
        best = &kept;
      }
    }
    if (best && session_.empty() && options_.session.empty())
      for (const auto& [key, reading] : best->readings)
        if (session_.empty()) session_ = reading.value.session;  // of the evening when it was kept
    if (!best) {
      auto fresh = new_copy(file);
      if (!fresh) return fresh.problems();
      record_copies_.push_back(std::move(*fresh));
      best = &record_copies_.back();
    }
    out_.copies.push_back(best->copy.thing);
    return keep_rows(file, *best);
  }

  Result<RecordCopy> new_copy(const FileCopy& file) {
    Copy copy;
    copy.setup = options_.setup;
    copy.coupon = out_.coupon;
    copy.print = ++highest_print_;
    copy.turned_deg = file.turned_deg;
    copy.state = to_json(options_.printed_with);
    copy.printed_on = options_.printed_on;
    auto kept = add(record_, copy, options_.at);
    if (!kept) return kept.problems();
    return RecordCopy{std::move(*kept), {}};
  }

  Problems keep_rows(const FileCopy& file, const RecordCopy& kept) {
    std::vector<StoredReading> fresh;
    for (const Reading* r : file.rows) {
      const auto there = kept.readings.find({r->feature.id, r->repeat});
      if (there == kept.readings.end()) {
        if (const auto problems = need_session(); !problems.empty()) return problems;
        fresh.push_back(stored(*r, kept.copy.thing, session_));
        continue;
      }
      const StoredReading next = stored(*r, kept.copy.thing, there->second.value.session);
      const auto amended = amend(record_, there->second, next, "read again from " + set_.source, options_.at);
      if (!amended) return amended.problems();
      ++(amended->row == there->second.row ? out_.known : out_.amended);
    }
    const auto added = add_all(record_, fresh, options_.at);
    if (!added) return added.problems();
    out_.added += static_cast<int>(added->size());
    return {};
  }

  /// The session that new readings belong to.
  Problems need_session() {
    if (!session_.empty()) return {};
    session_ = options_.session;
    if (!session_.empty()) return {};
    Session session;
    session.setup = options_.setup;
    session.caliper = options_.caliper;
    session.began = options_.at.empty() ? now_utc() : options_.at;
    const auto kept = add(record_, session, options_.at);
    if (!kept) return kept.problems();
    session_ = kept->thing;
    return {};
  }

  [[nodiscard]] double true_size(const Reading& r) const {
    const auto given = options_.true_size_mm.find(r.feature.id);
    return given == options_.true_size_mm.end() ? r.feature.nominal_mm : given->second;
  }

  /// A session of this setup or caliper that holds all of the file's steel already.
  Result<Id> session_with_all_steel() {
    const auto sessions = all<Session>(record_);
    if (!sessions) return sessions.problems();
    for (const auto& session : *sessions) {
      if (session.value.setup != options_.setup || session.value.caliper != options_.caliper) continue;
      const auto steel = all_of<SteelReading>(record_, "session", session.thing);
      if (!steel) return steel.problems();
      const bool all_there = not_in(*steel).empty();
      if (all_there) return session.thing;
    }
    return Id{};
  }

  [[nodiscard]] bool is(const SteelReading& kept, const Reading& r) const {
    return kept.kind == word(r.feature.kind) && kept.feature_id == r.feature.id && kept.repeat == r.repeat &&
           kept.true_mm == true_size(r) && kept.reading_mm == r.reading_mm;
  }

  /// The file's steel readings that are not among `kept`; each of those stands for one.
  [[nodiscard]] std::vector<const Reading*> not_in(std::vector<Kept<SteelReading>> kept) const {
    std::vector<const Reading*> out;
    for (const Reading* r : steel_) {
      const auto there = std::find_if(kept.begin(), kept.end(), [&](const auto& k) { return is(k.value, *r); });
      if (there == kept.end())
        out.push_back(r);
      else
        kept.erase(there);
    }
    return out;
  }

  Problems keep_steel() {
    if (steel_.empty()) return {};
    if (session_.empty() && options_.session.empty() && file_copies_.empty()) {
      const auto there = session_with_all_steel();
      if (!there) return there.problems();
      session_ = *there;
    }
    if (const auto problems = need_session(); !problems.empty()) return problems;
    const auto known = all_of<SteelReading>(record_, "session", session_);
    if (!known) return known.problems();
    std::vector<SteelReading> fresh;
    const auto missing = not_in(*known);
    out_.known += static_cast<int>(steel_.size() - missing.size());
    for (const Reading* r : missing) {
      SteelReading s;
      s.caliper = options_.caliper;
      s.session = session_;
      s.kind = word(r->feature.kind);
      s.feature_id = r->feature.id;
      s.true_mm = true_size(*r);
      s.repeat = r->repeat;
      s.reading_mm = r->reading_mm;
      s.note = r->note;
      fresh.push_back(std::move(s));
    }
    const auto added = add_all(record_, fresh, options_.at);
    if (!added) return added.problems();
    out_.added += static_cast<int>(added->size());
    return {};
  }

  Record& record_;
  const ReadingSet& set_;
  const KeepOptions& options_;
  KeptReadings out_;
  std::vector<FileCopy> file_copies_;
  std::vector<RecordCopy> record_copies_;
  std::vector<const Reading*> steel_;
  std::vector<Feature> features_;
  Id session_;
  int highest_print_ = 0;
};

}  // namespace

Result<KeptReadings> keep_readings(Record& record, const ReadingSet& readings, const KeepOptions& options) {
  return guarded(record, [&]() -> Result<KeptReadings> {
    Transaction whole(record.database());
    if (const auto setup = one<Setup>(record, options.setup); !setup) return setup.problems();
    auto kept = Keeping(record, readings, options).keep();
    if (kept) whole.commit();
    return kept;
  });
}

}  // namespace fitwright::record
