#include "design/readings_template.hpp"

#include <algorithm>
#include <limits>
#include <stdexcept>

#include "reading/csv.hpp"

namespace fitwright {
namespace {

constexpr double not_read = std::numeric_limits<double>::quiet_NaN();
constexpr int turned_deg = 90;  // of every second copy: scatter of seam and ripple averages out

Reading closed_jaws(int repeat) {
  Reading r;
  r.feature.id = "Z0";
  r.feature.kind = Kind::zero;
  r.feature.axis = Axis::n;
  r.repeat = repeat;
  r.reading_mm = not_read;
  r.note = "jaws wiped and closed";
  return r;
}

const Feature& feature_of(const Coupon& coupon, const JawPlace& place) {
  const auto found = std::find_if(coupon.features.begin(), coupon.features.end(),
                                  [&](const Feature& f) { return f.id == place.feature_id; });
  if (found == coupon.features.end()) throw std::logic_error("a jaw place of no feature: " + place.feature_id);
  return *found;
}

/// "place 7", and for cylinders the way the jaws stand.
std::string note_of(const Feature& f, const JawPlace& place, int repeat) {
  const bool round = f.kind == Kind::hole || f.kind == Kind::peg;
  return "place " + std::to_string(place.number) + (round ? repeat % 2 == 1 ? ", along X" : ", along Y" : "");
}

}  // namespace

std::string readings_template(const Coupon& coupon, const TemplateOptions& options) {
  if (options.copies < 1 || options.repeats < 1) throw std::logic_error("a template without rows");
  ReadingSet set;
  for (int repeat = 1; repeat <= options.repeats; ++repeat) set.rows.push_back(closed_jaws(repeat));
  for (int copy = 1; copy <= options.copies; ++copy)
    for (const JawPlace& place : coupon.places)
      for (int repeat = 1; repeat <= options.repeats; ++repeat) {
        Reading r;
        r.feature = feature_of(coupon, place);
        r.copy = copy;
        r.repeat = repeat;
        r.turned_deg = copy % 2 == 0 ? turned_deg : 0;
        r.reading_mm = not_read;
        r.note = note_of(r.feature, place, repeat);
        set.rows.push_back(std::move(r));
      }
  return to_csv(set);
}

}  // namespace fitwright
