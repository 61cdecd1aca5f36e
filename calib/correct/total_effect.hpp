#pragma once
// What a whole correction does to a length.

#include <optional>

#include "correct/correction.hpp"

namespace fitwright {

/// Lengths for which a change tells its effect, mm.
inline constexpr int effect_lengths_mm[] = {20, 100, 200};

/// Change of an outside length along `axis` ('x' or 'y') by all knobs of the correction together, mm: the sum of what
/// each does alone, which is exact to first order. Steps of another axis take no part. Empty for a length that the
/// changes do not tell.
std::optional<double> total_effect_mm(const Correction& correction, char axis, int length_mm);

}  // namespace fitwright
