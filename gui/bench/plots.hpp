#pragma once
// The plots of the bench, made from the analysis.

#include "bench/analysis.hpp"
#include "bench/scene.hpp"

namespace fitwright {

/// Read minus drawn against drawn length, along X, Y and Z as the machine's axes; outer, slot and pitch by shape; the
/// fitted lines with 95 % bands where the data carry them.
PlotScene lengths_plot(const Analysis& analysis);

/// Read minus drawn against diameter, for standing holes, pin holes and pegs, with fitted curves and 95 % bands.
PlotScene rounds_plot(const Analysis& analysis);

}  // namespace fitwright
