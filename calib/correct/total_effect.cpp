#include "correct/total_effect.hpp"

#include <string>
#include <string_view>

namespace fitwright {

std::optional<double> total_effect_mm(const Correction& correction, char axis, int length_mm) {
  constexpr std::string_view steps = "steps_per_mm.";
  double sum = 0;
  for (const Change& change : correction.changes) {
    if (change.knob.starts_with(steps) && change.knob != std::string(steps) + axis) continue;
    const auto effect = change.effect_mm.find(length_mm);
    if (effect == change.effect_mm.end()) {
      if (change.effect_mm.empty()) continue;  // acts on no outside length
      return std::nullopt;
    }
    sum += effect->second;
  }
  return sum;
}

}  // namespace fitwright
