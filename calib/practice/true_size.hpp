#pragma once
// What a printed feature really measures, before scatter and caliper.

#include "practice/simulate.hpp"

namespace fitwright {

/// sqrt(a^2 + b^2) rounded correctly but for about one case in 1e15: the same on every machine, which the C library's
/// own is not. Domain: sizes between 1e-100 and 1e100.
double hypotenuse(double a, double b);

/// Scale error of each axis: `scale`, or (1+m)(1-k)-1 where machine and shrinkage are both given.
AxisValues scales_of(const Truth& truth);

/// One copy's own errors.
struct CopyErrors {
  double edge_growth_mm = 0;  ///< of this copy, the truth's own included
  double scale = 0;           ///< added to the scale of every axis
};

/// Real size (mm) of `feature` lying so that it has `kind` and `axis` on the machine.
double true_size_mm(const Truth& truth, const AxisValues& scale, const TrueFeature& feature, Kind kind, Axis axis,
                    const CopyErrors& copy);

}  // namespace fitwright
