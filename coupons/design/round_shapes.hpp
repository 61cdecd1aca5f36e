#pragma once
// Round outlines that are measured: polygons inscribed in the nominal, with a notch at 45 degrees for the seam.
//
// A circle has no corner where a seam could hide. So each loop has one small notch, as far from the jaw lines along X
// and Y as a circle allows. The first corner of the polygon lies on the X axis.

#include "design/design.hpp"

namespace fitwright {

/// A round thing of the plan, mm.
struct RoundSpot {
  double diameter_mm = 0, cx = 0, cy = 0;
};

/// A bore; `widened_mm` moves its circle outward by that much (for the relief of the first layers), not its notch.
Region notched_bore(const RoundSpot& spot, int facets, double widened_mm = 0);
/// A peg.
Region notched_peg(const RoundSpot& spot, int facets);

/// Holes up to this size take no inside jaws: graded shanks measure them.
inline constexpr double shank_up_to_mm = 3;
/// Wall of a ring that inside jaws do not widen: eight beads of 0.45 mm where a thinner one would give way, six
/// elsewhere; more from 20 mm on, so that its closing (compliance.hpp) stays at what a ring of 20 mm has.
double ring_wall_mm(double bore_mm);

/// A feature of that spot, "hole" or "peg" as `kind` says (pin for holes of shanks), facets and label filled in.
Feature round_feature(const std::string& id, Kind kind, double diameter_mm, int facets);
/// Its place, jaws along X at height `z_mm`.
JawPlace round_place(const Feature& feature, const RoundSpot& spot, double z_mm, double compliance_mm_per_n);

}  // namespace fitwright
