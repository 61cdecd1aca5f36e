#pragma once
// Whether a correction would act on an error that something else already acts on.

#include <optional>
#include <string>
#include <vector>

#include "record/state_in_force.hpp"

namespace fitwright::record {

struct ActsTwice {
  std::string error;                    ///< "the scale in plane", "edge growth", ...
  std::vector<KnobDifference> already;  ///< knobs for it that were turned since: a = before, b = in force
  std::vector<KnobDifference> again;    ///< knobs that the correction would turn for it: a = old, b = new
};

/// A correction from `before` (the state its coupon was printed with) to `after`, where `in_force` holds now: empty
/// unless, for one error, a knob was turned since that the correction does not turn itself. A correction that turns
/// the very knobs that were turned since takes their place, and acts once.
std::optional<ActsTwice> acts_twice(const State& before, const State& after, const State& in_force);

}  // namespace fitwright::record
