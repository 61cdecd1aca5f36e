#pragma once
// The list of features in a truth's JSON.

#include <string>
#include <vector>

#include "base/json.hpp"
#include "practice/simulate.hpp"

namespace fitwright {

/// Reads the list `features`; appends what is wrong to `problems` and leaves out features that are.
std::vector<TrueFeature> parse_true_features(const JsonValue& list, const std::string& source, Problems& problems);

}  // namespace fitwright
