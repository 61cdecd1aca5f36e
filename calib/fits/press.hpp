#pragma once
// Press fits by the thick-cylinder equations, and latches by the beam equation. Elastic, short-time: plastics creep.

#include <string>
#include <vector>

namespace fitwright {

/// A ring pressed on a shaft, both elastic (Lame; Shigley, Mechanical Engineering Design, press and shrink fits).
struct PressFit {
  double ring_e_mpa = 0, ring_nu = 0;    ///< printed ring
  double shaft_e_mpa = 0, shaft_nu = 0;  ///< what goes into it
  double shaft_bore_radius_mm = 0;       ///< 0: solid
  double radius_mm = 0;                  ///< of the joint
  double outer_radius_mm = 0;            ///< of the ring
  double radial_interference_mm = 0;     ///< half of the diameters' difference; below 0 there is no pressure
};
struct PressStress {
  double pressure_mpa = 0;
  double ring_hoop_mpa = 0;  ///< at the bore: the greatest
  double ring_hoop_outside_mpa = 0;
  double shaft_hoop_mpa = 0;     ///< at the joint; negative: pressed
  double outside_growth_mm = 0;  ///< of the ring's outer radius
};
/// Throws std::domain_error for radii that are not 0 <= bore < joint < outside or moduli not above 0.
PressStress press_stress(const PressFit& fit);

/// A material's numbers for such estimates: typical handbook ranges from memory, no source; the user's own are better.
struct PlasticStrength {
  const char* name;
  double e_mpa, nu;
  double strength_mpa;    ///< tensile, along the layers
  double across_layers;   ///< share of it across the layers
  double allowed_strain;  ///< once, short
};
const std::vector<PlasticStrength>& plastics_from_memory();

/// Words on a press fit: how far the hoop stress is from the strength, and the cautions that always hold.
std::vector<std::string> press_words(const PressStress& stress, double strength_mpa, bool strength_from_memory);

/// A cantilever latch: thickness t, deflection y (its undercut), length L, mm.
struct Latch {
  double thickness_mm = 0, undercut_mm = 0, length_mm = 0;
};
/// Greatest strain of a cantilever of even thickness, bent at its end: 3 t y / (2 L^2) (beam theory).
double latch_strain(const Latch& latch);
/// Words: the strain against what is allowed, and what to change, each by itself, to come down to it.
std::vector<std::string> latch_words(const Latch& latch, double allowed_strain, bool allowed_from_memory);

}  // namespace fitwright
