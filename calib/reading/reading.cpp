#include "reading/reading.hpp"

namespace fitwright {
namespace {

bool lies_across(const Reading& r) {
  return (r.turned_deg == 90 || r.turned_deg == 270) && !is_steel(r.feature.kind);
}

}  // namespace

Kind machine_kind(const Reading& r) {
  if (!lies_across(r)) return r.feature.kind;
  switch (r.feature.kind) {
    case Kind::diag_plus: return Kind::diag_minus;
    case Kind::diag_minus: return Kind::diag_plus;
    case Kind::flats_plus: return Kind::flats_minus;
    case Kind::flats_minus: return Kind::flats_plus;
    default: return r.feature.kind;
  }
}

Axis machine_axis(const Reading& r) {
  if (!lies_across(r)) return r.feature.axis;
  if (r.feature.axis == Axis::x) return Axis::y;
  if (r.feature.axis == Axis::y) return Axis::x;
  return r.feature.axis;
}

}  // namespace fitwright
