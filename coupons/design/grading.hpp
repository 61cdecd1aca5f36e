#pragma once
// Clearances in equal steps, and what coupons that are tried by hand draw alike.

#include <string>
#include <vector>

#include "design/design.hpp"
#include "design/drafting.hpp"

namespace fitwright {

namespace param {
inline constexpr const char* start = "start_mm";
inline constexpr const char* step = "step_mm";
inline constexpr const char* count = "count";
}  // namespace param

/// Defaults of a grading.
struct GradingDefaults {
  double start_mm = -0.2, step_mm = 0.05;
  int count = 15, most = 24;
};

/// The parameters start_mm, step_mm and count, after `own`.
std::vector<DesignParameter> with_grading(std::vector<DesignParameter> own, const GradingDefaults& defaults = {});

/// Problems of the three together: finer than a micrometre, or beyond what is still a fit.
Problems grading_problems(const DesignValues& values);

/// The clearances, ascending, whole micrometres.
std::vector<double> clearances_mm(const DesignValues& values);

/// "-0.20", "0.05" (or with three decimals where one of them needs it), after `letter`: as engraved and as feature id.
std::vector<std::string> clearance_ids(char letter, const std::vector<double>& clearances_mm);

/// A drawn size as a number of nanometres: sums of decimals without a tail of digits.
double whole_nm(double mm);

/// Up to the next tenth of a millimetre, so that a coupon's size is a plain number.
double to_tenths(double mm);

/// Capital height of names on coupons: strokes of 0.7 mm, wider than a bead.
inline constexpr double fit_label_mm = 2.6;
/// Places to be tried in rows on one floor, the first at the front left, each with its name in front of it.
struct TrialGrid {
  double pitch_x_mm = 0, pitch_y_mm = 0;
  double cell_mm = 0;  ///< outer width of a place
  int columns = 1, rows = 1;
  [[nodiscard]] double x(int i) const;
  [[nodiscard]] double y(int i) const;        ///< middle of the place
  [[nodiscard]] double label_y(int i) const;  ///< middle of its name
  [[nodiscard]] double right() const;         ///< of the places; the bearings stand beside them
  [[nodiscard]] double size_x() const;
  [[nodiscard]] double size_y() const;
};
/// Two rows, or more where the bed asks for it.
TrialGrid trial_grid(const DesignValues& values, const std::vector<std::string>& ids, double cell_mm);

/// Width and height that fit_bearings takes.
inline constexpr double bearings_x_mm = 17, bearings_y_mm = 27;
/// FRONT with its arrow, the axes, and the coupon's name, in an area whose low corner is (x, y). Gives the marks.
Region fit_bearings(Coupon& coupon, double x, double y);

}  // namespace fitwright
