#pragma once
// Trials that contradict each other: shown, and never dropped.

#include <vector>

#include "fits/thresholds.hpp"

namespace fitwright {

/// Copies that felt different at one drawn clearance, and places that felt tighter than one with less clearance on the
/// same copy; by clearance.
std::vector<Contradiction> contradictions(const TrialSet& trials);

}  // namespace fitwright
