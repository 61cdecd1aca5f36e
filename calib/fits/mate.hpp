#pragma once
// The other part: what a printed size has to go together with.

#include <string>

namespace fitwright {

enum class MateKind {
  exact,     ///< of a size taken as certain
  limits,    ///< within limits: hardware
  measured,  ///< read with the user's own caliper: its zero cancels against that of the coupon's readings
  printed,   ///< another printed part of this setup, drawn for this fit too
};

struct Mate {
  MateKind kind = MateKind::exact;
  std::string name;   ///< for people: "bearing 608, outside diameter"; may be empty
  double low_mm = 0;  ///< limits; equal where exact or measured (the reading)
  double high_mm = 0;
  bool round = true;    ///< a cylinder; false: flats
  bool inside = false;  ///< it is a hole or slot that a printed peg or tab goes into
};

}  // namespace fitwright
