#pragma once
// What the estimates say about the errors that knobs act on, and whether that is enough to act.

#include <array>
#include <optional>
#include <span>
#include <string>

#include "correct/flow.hpp"
#include "model/contrast.hpp"
#include "model/estimates.hpp"
#include "stats/intervals.hpp"

namespace fitwright {

/// An error as found, with what is known about it.
struct Evidence {
  bool known = false;  ///< the readings tell it at all
  double value = 0;
  double u = 0;
  double df = 0;                              ///< effective degrees of freedom of u
  bool established = false;                   ///< the 95 % interval excludes 0, and it does not rest on a prior alone
  std::optional<double> half = std::nullopt;  ///< half-width of the 95 % interval, where it is not Student's own

  [[nodiscard]] double half_width() const;  ///< of the 95 % interval; 0 when not known
};

/// A sum of parameters as evidence; not known unless all with a weight are.
Evidence evidence(const Estimates& estimates, const Contrast& weights);

/// Whether `value` differs from 0 at 95 %: |value| > t(.975, df) u. A u of 0 establishes any value but 0.
bool differs_from_zero(double value, double u, double df);

/// Effective degrees of freedom of a sum whose contributions' uncertainties were taken from the same scatter, so that
/// they are all too small or all too large together: (sum u^2)^2 / (sum u^2 / sqrt(df))^2. Welch and Satterthwaite's
/// formula, which takes them for independent, would promise too much. Infinity when nothing contributes.
double shared_scatter_df(std::span<const Contribution> contributions);

Evidence evidence(const Estimates& estimates, const std::string& parameter);

/// What X and Y share, (s_x + s_y)/2, and what they differ by, s_x - s_y. Not known unless both scales are.
/// Copy-to-copy scatter of scale cancels in the difference.
Evidence shared_scale(const Estimates& estimates);
Evidence scale_difference(const Estimates& estimates);

/// Steps are set from a length of at least this, or from a measured travel: over less, the scatter of faces is more
/// than a machine's error (docs/mathematics.md).
inline constexpr double least_length_for_steps_mm = 100;

/// Longest nominal measured between flat faces along x, y, z on the machine, mm; 0 = none.
std::array<double, 3> longest_lengths(const Estimates& estimates);

/// Mean as-read widths of one-bead walls by drawn width, narrowest first. `u_mm` is what differs between walls.
std::vector<WallWidth> wall_widths(const Estimates& estimates);

/// Flow by the walls: from the narrowest and the widest when two bead widths were printed, else from the one width, in
/// which the caliper's zero and the faces' ripple take part. Empty without walls, or when they make no sense.
struct WallFlow {
  FlowTest test;
  int bead_widths = 0;
  double drawn_mm = 0;     ///< of the single width
  double measured_mm = 0;  ///< of the single width, caliper zero off
};
std::optional<WallFlow> flow_by_walls(const Estimates& estimates, double flow, double layer_height_mm);

/// Why a parameter is not there: which others it cannot be told from and what would tell, or that nothing was read.
std::string why_unknown(const Estimates& estimates, const std::string& parameter);

}  // namespace fitwright
