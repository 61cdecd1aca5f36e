#pragma once
// What is measured, in words.

#include <string>

#include "reading/feature.hpp"

namespace fitwright {

/// "slot", "height, 25 layers", "hole, first reading along X, second along Y": what is between the jaws.
std::string kind_words(const Feature& feature);

}  // namespace fitwright
