#pragma once
// How much a place closes per newton of jaw force: estimates by the formulas of beams, rings and shear panels.
//
// A light thumb gives about 4 N. A place that gives 0.007 mm per newton would read outsides 0.03 mm small and insides
// 0.03 mm large, the very pattern of a smaller edge growth; designs stay below it. Formulas: Timoshenko, Strength of
// Materials, part I (bars, bending, eccentric load) and part II (thin rings, shear panels). They leave out what
// a jaw dents the surface by, about 0.0001 mm per newton.

namespace fitwright {

/// No place of a coupon may give more, mm per newton.
inline constexpr double compliance_limit_mm_per_n = 0.007;
/// Young's modulus of printed plastic along its layers, N/mm2, and Poisson's ratio (common practice, no source):
/// stiff materials of 3 GPa; the softer ones that are printed (about 2 GPa) give 1.5 times as much.
inline constexpr double youngs_modulus_mpa = 3000;
inline constexpr double poissons_ratio = 0.35;

/// A section of a bar: area and what it does about its own axis.
struct Section {
  double area_mm2 = 0;
  double centre_across_mm = 0;  ///< centroid in plan, from where the caller counts
  double centre_up_mm = 0;      ///< centroid above the bed
  double inertia_plan_mm4 = 0;  ///< second moment for bending in plan
  double inertia_up_mm4 = 0;    ///< second moment for bending out of plan
};

/// A rectangle: `across` 0..width in plan, `up` from low to high.
Section rectangle_section(double across0_mm, double across1_mm, double low_mm, double high_mm);
/// Two sections glued together (parallel axes).
Section together(const Section& a, const Section& b);

/// Shortening per newton of a bar of that section over `length_mm` when the force runs at (`across`, `up`):
/// L/E (1/A + c_plan^2/I_plan + c_up^2/I_up).
double bar_closing(const Section& section, double length_mm, double across_mm, double up_mm);

/// Width of a thin web that works with a bar beside it over a length L: a tenth of it (shear lag).
double working_width_mm(double length_mm);

/// Torsion constant of a rectangular bar, mm4 (Roark's formula for a solid rectangle, within 4 %).
double torsion_constant_mm4(double width_mm, double height_mm);

/// Closing per newton of a diagonal of a square frame of bars on a floor web, jaws at `up_mm` above the bed. Sum of
/// - the web in shear: 1/(2 G t);
/// - the bars in compression, 1/sqrt2 at the loaded corner falling to 0 at the free one: 2 a/(3 E A);
/// - bending and torsion of the bars, as the force passes from the bar's middle height to the web on its way and acts
///   with a lever e that grows from (up - h/2) to (up - t/2): a/2 (1/EI + 1/GJ) mean(e^2);
/// times 1.2 for the joints: a finite-element model of solid bricks (side 100, bars 4 x 4.8, web 0.4) gave 0.0063 where
/// the sum is 0.0053.
double framed_panel_closing(double side_mm, double bar_width_mm, double bar_height_mm, double web_mm, double up_mm);

/// Change of a ring's diameter under two opposite forces: (pi/4 - 2/pi) R^3/(E I), R to the middle of the wall. A floor
/// around its foot helps: solid bricks gave 0.0034 for a bore of 20 mm on a floor of 0.4 mm where this gives 0.0044.
double ring_closing(double inner_diameter_mm, double wall_mm, double height_mm);

/// Flattening of an upright cylinder between two flat jaws over `length_mm` (Hertz line contact, half of it per side):
/// 2 (1 - nu^2)/(pi E l) (2 ln(2 d/b) - 1) with b the half width of the contact under `force_n`, divided by the force.
double cylinder_closing(double diameter_mm, double length_mm, double force_n = 4);

}  // namespace fitwright
