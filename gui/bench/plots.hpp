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

/// Read minus fitted, reading by reading in the order in which they were typed; what is set aside as crosses.
PlotScene order_plot(const Analysis& analysis);

/// Read minus fitted by feature, its copies by shape, and their mean: what all copies share is no noise.
PlotScene features_plot(const Analysis& analysis);

/// The square between X and Y as drawn and as printed, its shear so many times as large as it is that it can be seen;
/// the factor is named. The diagonals that were read are its marks.
PlotScene corner_plot(const Analysis& analysis);

}  // namespace fitwright
