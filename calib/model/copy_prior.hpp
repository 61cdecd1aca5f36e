#pragma once
// How much copies of one coupon may differ, where too few of them were read to show it.

#include <string>

#include "base/words.hpp"
#include "model/priors.hpp"

namespace fitwright {

/// Scatter from copy to copy as it is assumed with one or two copies: standard deviations beyond the noise of readings,
/// worth `df` degrees of freedom. By default the typical values of priors.hpp; a printer with a history of copies has
/// its own (learn/copy_scatter.hpp).
struct CopyPrior {
  double edge_sd_mm = prior::copy_edge_sd_mm;  ///< of edge growth, > 0
  double scale_sd = prior::copy_scale_sd;      ///< of scale, > 0
  double df = prior::copy_df;                  ///< > 0
  std::string source = noted("scatter from copy to copy, worth 4 degrees of freedom; common practice, no source");
};

}  // namespace fitwright
