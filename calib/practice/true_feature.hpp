#pragma once
// A feature of a coupon as the practice printer prints it.

#include "practice/simulate.hpp"
#include "reading/feature.hpp"

namespace fitwright {

/// The feature as drawn: its nominal, and the two sides that a diagonal depends on (beside the nominal for flats,
/// instead of it otherwise). Edges keep their names, so that faces shared by features stay shared.
TrueFeature true_feature(const Feature& drawn);

}  // namespace fitwright
