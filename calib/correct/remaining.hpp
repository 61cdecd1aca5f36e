#pragma once
// What is left of lengths after a correction, with its interval.

#include <map>
#include <string>
#include <vector>

#include "correct/beyond.hpp"
#include "correct/plan.hpp"

namespace fitwright {

/// Errors of the lengths of left_over() in the state `after`. Uncertainty by first order in all errors: those of the
/// estimates by their independent parts (model/contrast.hpp), with the others of `errors` independent of them.
std::map<std::string, Remains> remaining(const State& before, const State& after, const Estimates& estimates,
                                         const UncertainErrors& errors, const std::vector<BeyondReadings>& beyond);

}  // namespace fitwright
