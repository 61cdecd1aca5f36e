#include "practice/true_feature.hpp"

namespace fitwright {

TrueFeature true_feature(const Feature& drawn) {
  TrueFeature out;
  out.id = drawn.id;
  out.kind = drawn.kind;
  out.axis = drawn.axis;
  out.lengths_mm = {drawn.nominal_mm};
  if (drawn.side_a_mm && drawn.side_b_mm) {
    const bool flats = drawn.kind == Kind::flats_plus || drawn.kind == Kind::flats_minus;
    if (!flats) out.lengths_mm.clear();
    out.lengths_mm.push_back(*drawn.side_a_mm);
    out.lengths_mm.push_back(*drawn.side_b_mm);
  }
  out.edge_a = drawn.edge_a;
  out.edge_b = drawn.edge_b;
  return out;
}

}  // namespace fitwright
