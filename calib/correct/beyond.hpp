#pragma once
// What reaches a reading and that no scatter of readings shows: it is the same in all of them. It is not in the
// intervals, which speak of the readings, and is told beside them.

#include <optional>
#include <string>
#include <vector>

#include "model/contrast.hpp"
#include "model/estimates.hpp"
#include "reading/reading.hpp"

namespace fitwright {

namespace surroundings {
/// Linear expansion of common printing plastics, 1/K (handbook range 6e-5 to 1e-4; 7e-5 is typical of PLA and PETG).
inline constexpr double plastic_expansion_per_k = 7e-5;
/// Standard reference temperature of lengths, degrees C (ISO 1:2022).
inline constexpr double reference_c = 20;
/// Standard uncertainty of a part's temperature about the reference, where none was read: a room, and a part that was
/// left to cool in it (common practice, no source).
inline constexpr double part_u_k = 3;
/// The same where the temperature was read: of the thermometer and of where it was held (common practice, no source).
inline constexpr double thermometer_u_k = 1;
/// Standard uncertainty of the force of a thumb that means to press lightly, about 4 N (common practice, no source).
inline constexpr double jaw_force_u_n = 2;
/// What a place of our coupons gives at most, mm per newton (docs/mathematics.md, section on closing under the jaws).
inline constexpr double most_compliance_mm_per_n = 0.007;
}  // namespace surroundings

/// One effect on one parameter. Effects of one cause go together: a warm part is long along all axes.
struct BeyondReadings {
  std::string cause;      ///< "temperature of the part", "jaw force"
  std::string how_much;   ///< of the cause, standard uncertainty: "3 K", "2 N"
  std::string parameter;  ///< by its name in the estimates
  double u = 0;           ///< standard uncertainty that the cause adds to the parameter, in its unit
  std::string unit;
  std::string because;
  std::string action;
};

/// Farthest that a part was from 20 °C when read, in kelvin with its sign; empty when no reading says.
std::optional<double> farthest_off_reference_k(const ReadingSet& readings);

/// The effects on what was estimated, cause by cause. A part's temperature is what the column part_c says, where every
/// reading of a print has one, and else taken to be within 3 K (standard uncertainty) of 20 °C. Nothing is ever taken
/// off for it, so that a known distance counts like an uncertainty (JCGM 100:2008, F.2.4.5).
std::vector<BeyondReadings> beyond_readings(const Estimates& estimates, const ReadingSet& readings);

/// Standard uncertainty that they add to a sum of parameters: within a cause with their signs, causes independent.
double u_beyond(const std::vector<BeyondReadings>& effects, const Contrast& weights);

}  // namespace fitwright
