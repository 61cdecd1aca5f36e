#pragma once
// Which of the policies to follow, or none: decided from what each would change and what it would leave.

#include <optional>
#include <string>
#include <vector>

#include "correct/correction.hpp"

namespace fitwright {

/// What a policy comes to; empty where it cannot be followed.
struct PolicyResult {
  Policy policy = Policy::shrink;
  std::optional<Correction> correction;
};

struct Recommendation {
  std::optional<Policy> policy;  ///< empty: nothing to change
  std::string because;           ///< one sentence
};

/// The policy to follow. Where no policy changes anything: none. Where the machine's own travel was measured: machine,
/// since nothing else tells its part from the plastic's. Where both axes come out long: plastic does not grow when it
/// cools, so the size factor is the wrong knob for it, and steps are recommended where they are established; else
/// shrink: what the axes share is laid to the plastic (a material property that comes back with every printer), only
/// what they differ by to the machine (common practice, no source). A change that no policy but shrink makes stays
/// with shrink.
Recommendation recommend(const Estimates& estimates, const std::vector<PolicyResult>& results);

}  // namespace fitwright
