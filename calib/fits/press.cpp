#include "fits/press.hpp"

#include <cmath>
#include <stdexcept>

#include "base/words.hpp"

namespace fitwright {

PressStress press_stress(const PressFit& f) {
  const bool sound = f.shaft_bore_radius_mm >= 0 && f.radius_mm > f.shaft_bore_radius_mm &&
                     f.outer_radius_mm > f.radius_mm && f.ring_e_mpa > 0 && f.shaft_e_mpa > 0;
  if (!sound) throw std::domain_error("press fit with radii or moduli out of range");
  const double r2 = f.radius_mm * f.radius_mm;
  const double outer2 = f.outer_radius_mm * f.outer_radius_mm, bore2 = f.shaft_bore_radius_mm * f.shaft_bore_radius_mm;
  const double ring = (outer2 + r2) / (outer2 - r2), shaft = (r2 + bore2) / (r2 - bore2);
  PressStress out;
  const double give = f.radius_mm * ((ring + f.ring_nu) / f.ring_e_mpa + (shaft - f.shaft_nu) / f.shaft_e_mpa);
  out.pressure_mpa = f.radial_interference_mm > 0 ? f.radial_interference_mm / give : 0;
  out.ring_hoop_mpa = out.pressure_mpa * ring;
  out.ring_hoop_outside_mpa = out.pressure_mpa * 2 * r2 / (outer2 - r2);
  out.shaft_hoop_mpa = -out.pressure_mpa * shaft + 0.0;
  out.outside_growth_mm = out.ring_hoop_outside_mpa * f.outer_radius_mm / f.ring_e_mpa;
  return out;
}

const std::vector<PlasticStrength>& plastics_from_memory() {
  static const std::vector<PlasticStrength> list{{"PLA", 3200, 0.35, 50, 0.6, 0.015},
                                                 {"PETG", 2000, 0.38, 45, 0.6, 0.025},
                                                 {"ABS", 2100, 0.37, 38, 0.5, 0.025},
                                                 {"ASA", 2100, 0.37, 40, 0.5, 0.025},
                                                 {"PA", 1600, 0.40, 50, 0.6, 0.04}};
  return list;
}

std::vector<std::string> press_words(const PressStress& stress, double strength_mpa, bool strength_from_memory) {
  /// Hoop stress that a pressed plastic ring is let carry for long, as a share of its short-time strength (common
  /// practice, no source): creep does the rest.
  constexpr double lasting_share = 0.3;
  std::vector<std::string> out;
  const double share = stress.ring_hoop_mpa / strength_mpa;
  out.push_back(said("The pressed ring carries {} MPa around its bore, {} % of a strength of {} MPa.",
                     said_fixed(stress.ring_hoop_mpa, 1), said_fixed(100 * share, 0), said_shortest(strength_mpa)));
  if (strength_from_memory) out.push_back(tr("The strength is a typical value from memory: give your material's own."));
  if (share > 1)
    out.push_back(tr("It will crack or yield as it is pressed in: less interference, or a thicker ring."));
  else if (share > lasting_share)
    out.push_back(tr("It holds at first; over days plastic creeps, and it may loosen or crack: less interference."));
  else
    out.push_back(tr("Low enough to last, as far as the elastic equations go."));
  out.push_back(
      tr("Layers part before they tear: a ring whose layers lie across the pull bears about half. No press fit told "
         "here is rated for load."));
  return out;
}

double latch_strain(const Latch& l) { return 3 * l.thickness_mm * l.undercut_mm / (2 * l.length_mm * l.length_mm); }

std::vector<std::string> latch_words(const Latch& l, double allowed_strain, bool allowed_from_memory) {
  std::vector<std::string> out;
  const double strain = latch_strain(l);
  out.push_back(said("The latch is strained by {} % where it is fixed; {} % is allowed.", said_fixed(100 * strain, 1),
                     said_fixed(100 * allowed_strain, 1)));
  if (allowed_from_memory)
    out.push_back(tr("What is allowed is a typical value from memory: give your material's own."));
  if (strain > allowed_strain) {
    const double over = strain / allowed_strain;
    out.push_back(said("Make it {} mm long, or {} mm thin, or take {} mm of undercut: one of them is enough.",
                       said_fixed(l.length_mm * std::sqrt(over), 1), said_fixed(l.thickness_mm / over, 2),
                       said_fixed(l.undercut_mm / over, 2)));
  }
  out.push_back(
      tr("Print it lying, so that its layers run along it: standing layers part at a fraction of this strain. Wear eye "
         "protection when snapping: brittle plastic throws splinters."));
  return out;
}

}  // namespace fitwright
