#pragma once
// How a drawn size comes out: mean, slopes by the parameters of the error model, scatter of one new part.

#include <map>
#include <string>
#include <vector>

#include "fits/allowance.hpp"
#include "model/contrast.hpp"

namespace fitwright {

/// Values of parameters by name.
using ParameterValues = std::map<std::string, double>;

/// Size that comes out of `drawn_mm` at these values of the parameters, for coupons printed in `before` and a part
/// printed in `after`; and the size to draw for a wanted one (empty when none gives it).
struct SizeQuestion {
  SizeKind kind = SizeKind::hole;
  char axis = 0;
  int facets = 0;
  State before, after;
};
double printed_mm(const SizeQuestion& question, const ParameterValues& values, double drawn_mm);
std::optional<double> to_draw_mm(const SizeQuestion& question, const ParameterValues& values, double wanted_mm);

/// d printed / d parameter at the values.
Contrast printed_slopes(const SizeQuestion& question, const ParameterValues& values, double drawn_mm);

/// The parameters that a size needs, with their values; those that were not read but have a weak prior are listed with
/// its standard deviation. Errors: Code::unanswerable, saying what to read.
struct LawParameters {
  ParameterValues values;
  std::map<std::string, double> prior_sd;  ///< of those that no reading told
};
Result<LawParameters> law_parameters(const Estimates& estimates, SizeKind kind);

/// Scatter of one new place, and of the edge growth and scale of the copy it is on.
struct NewPartScatter {
  double place_sd_mm = 0;
  double copy_edge_sd_mm = 0;
  double copy_scale_sd = 0;
  double place_df = 0;
  double copy_df = 0;
};
NewPartScatter new_part_scatter(const Estimates& estimates, bool round);

}  // namespace fitwright
