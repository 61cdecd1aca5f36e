#pragma once
// Where the numbers and jaw marks of a plan stand, so that none covers another or a label.

#include <vector>

#include "design/design.hpp"

namespace fitwright {

/// A point on the page, mm, Y downward.
struct Spot2 {
  double x = 0, y = 0;
};

/// The coupon's plan on the page: scaled, Y turned downward.
struct PlanScale {
  double scale = 1;
  double left = 0;    ///< of the coupon's corner
  double bottom = 0;  ///< page Y of the coupon's front edge
  [[nodiscard]] Spot2 at(double x_mm, double y_mm) const { return {left + scale * x_mm, bottom - scale * y_mm}; }
};

/// A jaw place ready to be drawn.
struct PlanMark {
  const JawPlace* place = nullptr;
  const Feature* feature = nullptr;
  Spot2 a, b;                  ///< the faces
  double dx = 0, dy = 0;       ///< from a to b, unit length; 0, 0 for heights
  std::vector<Spot2> numbers;  ///< centres of the numbered circles: one, or two for diagonals
  bool moved_out = false;      ///< the line between the jaws is drawn beside the part, from line_a to line_b
  Spot2 line_a, line_b;
};

/// Radius of the numbered circles on the page: two digits of 8 points fit in.
inline constexpr double number_radius_mm = 2.8;

/// Room needed around the part for marks moved out, page mm on each side: left, right, front, back.
struct PlanMargins {
  double left = 0, right = 0, front = 0, back = 0;
};

struct PlanLayout {
  std::vector<PlanMark> marks;
  PlanMargins margins;
};

/// Marks of a coupon whose part is drawn at `scale`.
PlanLayout plan_layout(const Coupon& coupon, const PlanScale& scale);

}  // namespace fitwright
