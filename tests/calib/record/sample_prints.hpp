#pragma once
// Prints of the practice printer for tests of the record: a frame of 100 mm, read with the caliper.

#include "practice/simulate.hpp"
#include "reading/reading.hpp"

namespace sample {

/// Lengths and slots of several sizes on both axes, and the closed jaws.
inline fitwright::Truth frame_truth(int copies) {
  using namespace fitwright;
  Truth t = default_truth();
  t.copies = copies;
  t.features.clear();
  const auto add = [&](const std::string& id, Kind kind, Axis axis, double mm) {
    TrueFeature f;
    f.id = id;
    f.kind = kind;
    f.axis = axis;
    f.lengths_mm = {mm};
    t.features.push_back(f);
  };
  for (const Axis axis : {Axis::x, Axis::y}) {
    const std::string a = axis == Axis::x ? "X" : "Y";
    add(a + "10a", Kind::outer, axis, 10);
    add(a + "10b", Kind::outer, axis, 10);
    add(a + "40", Kind::outer, axis, 40);
    add(a + "100a", Kind::outer, axis, 100);
    add(a + "100b", Kind::outer, axis, 100);
    for (const int l : {10, 20, 40}) add("S" + a + std::to_string(l), Kind::inner, axis, l);
  }
  add("Z0", Kind::zero, Axis::n, 0);
  return t;
}

/// Only the copies from `first` on, counted from 1 again; steel stays.
inline fitwright::ReadingSet copies_from(fitwright::ReadingSet set, int first) {
  std::erase_if(set.rows, [&](const auto& r) { return !is_steel(r.feature.kind) && r.copy < first; });
  for (auto& r : set.rows)
    if (!is_steel(r.feature.kind)) r.copy -= first - 1;
  return set;
}

}  // namespace sample
