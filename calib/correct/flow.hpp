#pragma once
// Flow from one-bead walls or a weighed block. Flow is never set from an outside length.
//
// A bead laid on a layer is a stadium: a rectangle with half circles at its sides, so its section is h (w - k) with
// k = h (1 - pi/4), and a bead of width w at flow ratio f becomes k + f (w - k) wide. (docs/mathematics.md)

#include "correct/state.hpp"

namespace fitwright {

/// k = h (1 - pi/4), mm: what the round sides of a bead of height h take from its rectangle.
double bead_side_loss_mm(double layer_height_mm);

/// Cross-section of a bead of width w and height h, mm2.
double bead_area_mm2(double width_mm, double layer_height_mm);

/// Width of a free one-bead wall drawn w wide when the real flow is `ratio` times the wanted one, mm.
double wall_width_mm(double drawn_mm, double layer_height_mm, double ratio);

/// What a wall test says about flow.
struct FlowTest {
  double ratio = 1;     ///< real flow / wanted flow at the present setting
  double flow_new = 1;  ///< setting that makes it right
  double u = 0;         ///< standard uncertainty of flow_new
  /// Whether the difference is more than twice its uncertainty: less is not worth a change.
  [[nodiscard]] bool worth_a_change() const;
};

/// From one one-bead wall: F (wt - k) / (wm - k). Precondition: both widths are above k.
FlowTest flow_from_wall(double flow, double drawn_mm, double measured_mm, double u_measured_mm, double layer_height_mm);

/// Mean width of one-bead walls drawn with one bead width.
struct WallWidth {
  double drawn_mm = 0;
  double measured_mm = 0;
  double u_mm = 0;
};

/// From two one-bead walls printed with two bead widths: real / wanted flow = (m2 - m1) / (w2 - w1). The caliper's zero
/// and the ripple of the faces cancel, so u_mm should hold what differs between the two only.
/// Precondition: the drawn widths differ and the measured difference is not 0.
FlowTest flow_from_two_walls(double flow, const WallWidth& first, const WallWidth& second);

/// From a solid block: real / wanted flow = mass / (volume x density). `u_relative`: of the three together; about 0.01
/// with a kitchen scale and the maker's density (common practice, no source). Precondition: all > 0.
FlowTest flow_from_block(double flow, double mass_g, double volume_mm3, double density_g_cm3, double u_relative = 0.01);

/// A solid block, printed and weighed alone.
struct WeighedBlock {
  double mass_g = 0;
  double volume_mm3 = 0;            ///< as drawn
  double side_mm = 0;               ///< of its square outline; 0: not known, and the outline offset is left out
  double density_g_cm3 = 1.24;      ///< of the material (the designs' default)
  double density_u_g_cm3 = 0.0124;  ///< 1 % (makers give two or three digits; common practice, no source)

  /// Standard uncertainty of a kitchen or letter scale that shows 0.1 g: 0.1/sqrt(12).
  static constexpr double scale_u_g = 0.029;

  /// Volume that the program which prepares the print was given, mm3: the drawn one times the size factor in X and Y,
  /// with the outline offset where the side is known. Heights are whole layers already.
  [[nodiscard]] double sliced_mm3(const State& state) const;
};

/// What +1 of flow adds per edge: from (w-k)/2, bead free on both sides, to w-k, one side blocked. mm.
struct EdgeGain {
  double least_mm = 0;
  double most_mm = 0;
  /// Standard uncertainty of a gain somewhere between the two (rectangular, JCGM 100:2008, 4.3.7).
  [[nodiscard]] double u_mm() const;
};
EdgeGain edge_gain(double bead_width_mm, double layer_height_mm);

}  // namespace fitwright
