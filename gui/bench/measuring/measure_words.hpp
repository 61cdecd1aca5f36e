#pragma once
// Features and parts in words while measuring.

#include <string>

#include "bench/measuring/measuring.hpp"

namespace fitwright {

/// "outer, over both blocks", "peg, along X", "jaws closed".
std::string feature_words(const MeasureSpot& spot, int repeat);
/// "X40 outer", short enough for a list.
std::string coming_words(const MeasureSpot& spot);
/// "Frame, copy 2 of 2 (turned 90\u00b0)"; of steel "Caliper, before the part".
std::string part_words(const MeasurePlan& plan, const MeasureSpot& spot);
/// "outside jaws, along X, 3 mm above the bed".
std::string how_words(const MeasureSpot& spot, int repeat);

}  // namespace fitwright
