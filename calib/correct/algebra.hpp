#pragma once
// The pure algebra of corrections: what a printed size is in any state, and which state or drawn size makes it right.
//
// A printed length along axis a is (1-k)(1+m_a) mu_a (C L + 2 X) + 2 e_raw(F): k shrinkage, m_a machine error, mu_a
// steps relative to the right ones, C size factor, X outline offset, e_raw edge growth with X out, F flow. Readings of
// a coupon give q_a = 1 + s_a = (1-k)(1+m_a) mu_a C and the edge growth e = e_raw + X q / C. (docs/mathematics.md)

#include <optional>

#include "correct/state.hpp"

namespace fitwright {

/// What the readings of a coupon say about lengths in plane, for the state it was printed with.
struct PlanarFit {
  double scale_x = 0;         ///< s_x
  double scale_y = 0;         ///< s_y
  double edge_growth_mm = 0;  ///< e, outward per edge
};

/// Error of the machine's own movement, relative to the present steps: travelled / commanded - 1.
struct MachineScale {
  double x = 0;
  double y = 0;
};

/// Geometric mean of 1 + s_x and 1 + s_y.
double mean_gain(const PlanarFit& fit);

/// Edge growth per edge with the outline offset out: e - X q / C, mm.
double raw_edge_mm(const State& before, const PlanarFit& fit);

/// Size factor and steps of the four policies. Everything else is as in `before`.
State shrink_scaled(const State& before, const PlanarFit& fit);  ///< C by the mean, steps by the X/Y difference
State steps_scaled(const State& before, const PlanarFit& fit);   ///< all of it to the steps
State machine_scaled(const State& before, const PlanarFit& fit, const MachineScale& machine);
State shrink_only_scaled(const State& before, const PlanarFit& fit);  ///< C by the mean, steps untouched

/// The outline offset that leaves no edge growth, for the size factor and flow of `after`:
/// -(e_raw + beta (F' - F)) C'.
double outline_offset_for(const State& before, const State& after, const PlanarFit& fit);

/// The flow that would take the edge growth away with no outline offset: F - e_raw / beta. Empty for beta = 0.
std::optional<double> flow_for_edge(const State& before, const PlanarFit& fit);

/// What lengths in plane do in a state.
struct PlanarOutcome {
  double gain_x = 1;  ///< q'_x: printed per drawn mm
  double gain_y = 1;
  double edge_x_mm = 0;  ///< edge growth that is left over, per edge, along X
  double edge_y_mm = 0;
  double edge_mm = 0;  ///< the same by the mean gain, for round features and drawn sizes
};

/// Lengths in state `after`, from a coupon printed in state `before`.
PlanarOutcome outcome(const State& before, const State& after, const PlanarFit& fit);

/// mu'/mu: the ratio of the steps of one axis after and before a change.
double steps_ratio(double steps_before, double steps_after);

/// How a round feature comes out beyond scale and edge growth: smaller by c0 + c1/d (mm, mm2). Holes: hole_c0, hole_c1;
/// pegs: peg_p0, peg_p1. `facets`: sides of the polygon drawn, 0 = a true circle.
struct RoundLaw {
  double c0_mm = 0;
  double c1_mm2 = 0;
  int facets = 0;
};

/// Share of the diameter that a polygon of `facets` sides inscribed in the circle loses over its flats:
/// 1 - cos(pi / N); 0 for a true circle.
double facet_loss(int facets);

/// Sizes to draw so that `target_mm` comes out. Empty when no drawn size gives it (it would have to close to nothing).
std::optional<double> hole_to_draw(double target_mm, const PlanarOutcome& lengths, const RoundLaw& law);
std::optional<double> peg_to_draw(double target_mm, const PlanarOutcome& lengths, const RoundLaw& law);
/// A slot or tab along one axis, whose gain is `gain` and left-over edge growth `edge_mm`.
double slot_to_draw(double target_mm, double gain, double edge_mm);
double tab_to_draw(double target_mm, double gain, double edge_mm);

/// What comes out of a drawn hole or peg.
double hole_as_printed(double drawn_mm, const PlanarOutcome& lengths, const RoundLaw& law);
double peg_as_printed(double drawn_mm, const PlanarOutcome& lengths, const RoundLaw& law);

/// A height as whole layers, with the model scaled in Z against the error s_z.
struct LayerCount {
  int layers = 0;
  double printed_height_mm = 0;
};
/// Precondition: height, layer height > 0 and scale_z > -1.
LayerCount whole_layers(double height_mm, double layer_height_mm, double scale_z);

/// Another material's state after the steps of the machine were changed by the ratios rho: its C and X are divided by
/// sqrt(rho_x rho_y), so that its own lengths stay as they were.
State rescaled(const State& material, double rho_x, double rho_y);

/// The same where only its state is known. A material with C = 1 was never calibrated: its numbers are left, and it is
/// stale.
struct Reexpressed {
  State state;
  bool stale = false;
};
Reexpressed reexpressed(const State& material, double rho_x, double rho_y);

}  // namespace fitwright
