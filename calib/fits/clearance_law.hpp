#pragma once
// The clearance of a part to come against the thresholds: its mean, and everything that makes it differ.

#include "fits/part_law.hpp"

namespace fitwright {

/// Everything is about the margin: real clearance minus a threshold brought to real clearance.
struct ClearanceLaw {
  SizeQuestion part, other;       ///< the part asked for; the mate, where it is printed too
  LawParameters parameters;       ///< of all sizes that take part
  Contrast slopes;                ///< d margin / d parameter
  double sign = 1;                ///< clearance = sign * (printed - mate)
  double mate_mm = 0;             ///< its mean size, where it is not printed
  double threshold_shift_mm = 0;  ///< real clearance = ladder's clearance + this
  double estimates_variance = 0, copy_variance = 0, mate_variance = 0;
  double place_variance = 0;         ///< of all printed places; 0 where the ladder's s has them
  double one_place_variance = 0;     ///< of one printed place
  int printed = 1;                   ///< parts of the pair that are printed
  double ladder_place_variance = 0;  ///< drawn clearances: what printing put into the ladder's s, as far as s has room
  double df = 0;                     ///< of the variance of the margin
  std::vector<std::string> notes;

  [[nodiscard]] double variance() const { return estimates_variance + place_variance + copy_variance + mate_variance; }
};

/// Scatter of feel is never taken to be less than this, mm: a hand does not feel a hundredth.
inline constexpr double least_feel_mm = 0.015;
/// What the ladder's s says of feel, and of places where they are in it.
struct LadderScatter {
  double feel_variance = 0, place_variance = 0;
};
LadderScatter ladder_scatter(double s_mm, const ClearanceLaw& law);

/// Errors: as allowance().
Result<ClearanceLaw> clearance_law(const AllowanceBasis& basis, const AllowanceRequest& request);

/// Sizes to draw for a mean real clearance: the part's, and the mate's where it is printed.
struct SizesToDraw {
  double part_mm = 0;
  std::optional<double> mate_mm;
};
std::optional<SizesToDraw> sizes_for(const ClearanceLaw& law, const AllowanceRequest& request, double clearance_mm);

}  // namespace fitwright
