#include "record/acting_twice.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace fitwright::record {
namespace {

struct ErrorKnobs {
  std::string_view error;
  std::vector<std::string_view> knobs;
};

/// Which knobs act on the same error (docs/mathematics.md, corrections).
const std::vector<ErrorKnobs>& error_knobs() {
  static const std::vector<ErrorKnobs> groups{
      {"the scale in plane", {"size_factor", "steps_per_mm.x", "steps_per_mm.y"}},
      {"edge growth", {"outline_offset_mm", "flow", "steps_per_mm.e", "bead_width_mm"}},
      {"the scale of Z", {"steps_per_mm.z"}},
      {"the height offset", {"z_offset_mm", "first_layer_height_mm"}},
  };
  return groups;
}

std::vector<KnobDifference> within(const std::vector<KnobDifference>& all, const ErrorKnobs& group) {
  std::vector<KnobDifference> out;
  std::copy_if(all.begin(), all.end(), std::back_inserter(out), [&](const KnobDifference& d) {
    return std::find(group.knobs.begin(), group.knobs.end(), d.knob) != group.knobs.end();
  });
  return out;
}

}  // namespace

std::optional<ActsTwice> acts_twice(const State& before, const State& after, const State& in_force) {
  const auto turned_since = differences(before, in_force);
  const auto to_turn = differences(before, after);
  for (const ErrorKnobs& group : error_knobs()) {
    const auto already = within(turned_since, group);
    const auto again = within(to_turn, group);
    if (again.empty()) continue;
    for (const KnobDifference& d : already) {
      const bool replaced =
          std::any_of(again.begin(), again.end(), [&](const KnobDifference& a) { return a.knob == d.knob; });
      if (!replaced) return ActsTwice{std::string(group.error), already, again};
    }
  }
  return std::nullopt;
}

}  // namespace fitwright::record
