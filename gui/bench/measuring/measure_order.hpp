#pragma once
// The order of readings that spares jaw changes and turns of the part, and keeps repeats independent.
//
// - Steel first, each pair of jaws just before it is used: closed jaws and gauge, and a ring before the inside jaws.
// - Part by part: what is in the hand stays there, and a part is complete when it is put down. The next part begins
//   with the jaws in hand.
// - Within one part and one pair of jaws the round is gone as often as there are repeats, instead of reading twice at
//   each place. Who has just read 40.12 sees 40.12 again, and a slip of the eye or a bad seat repeats itself: readings
//   one after another agree too well to show either. A round costs no jaw change, and the second one runs through the
//   directions backwards, so that the part is turned only where it must be.
// - Third readings come at the end of their round, never in the middle: somebody who presses the caliper's button
//   without looking is not put out of step.

#include <cstddef>
#include <span>
#include <vector>

#include "bench/measuring/measure_plan.hpp"

namespace fitwright {

/// Order for `spots` (steel first, then part after part, each in the coupon's own order).
std::vector<Due> sparing_order(const std::vector<MeasureSpot>& spots, std::size_t parts);

/// What the hands do beside reading.
struct Moves {
  std::size_t jaw_changes = 0;   ///< another pair of jaws, a shank or the rod taken up
  std::size_t turns = 0;         ///< the same part turned to another direction
  std::size_t part_changes = 0;  ///< another part taken up
  std::size_t in_a_row = 0;      ///< repeats read straight after each other on one place of a part
};
Moves moves_of(const std::vector<MeasureSpot>& spots, std::span<const Due> order);

}  // namespace fitwright
