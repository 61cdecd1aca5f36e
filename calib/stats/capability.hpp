#pragma once
// Whether a measuring instrument can judge a tolerance.

#include "base/words.hpp"

namespace fitwright {

/// Named rule, so that whoever tells the answer can say by what.
inline constexpr const char* capability_rule = noted(
    "measurement capability index C_m = T/(4 u) = T/(2 U) (JCGM 106:2012, 3.3.17 and 7.6): 4 and more can judge (the 4 "
    "to 1 rule of ASME B89.7.3.1-2001, from memory), above 1 can judge with the tolerance narrowed by U at both ends "
    "(guarded acceptance, JCGM 106:2012, 8.3.2, and ISO 14253-1)");

/// From this index on a reading within the tolerance is taken as it is.
inline constexpr double capable_index = 4;
/// At and below this index the guard bands at both ends meet: no reading proves a part good.
inline constexpr double useless_index = 1;

enum class Capability {
  can,     ///< readings are taken as they are
  just,    ///< only readings well inside prove a part good: see accept_within_mm
  cannot,  ///< no reading proves a part good
};

struct CapabilityAnswer {
  Capability answer = Capability::cannot;
  double index = 0;             ///< C_m
  double accept_within_mm = 0;  ///< half-width of the zone in which a reading proves a part good: tolerance - U, 0 at
                                ///< least; the whole tolerance where the instrument can judge
  double reject_beyond_mm = 0;  ///< beyond it a reading proves a part bad: tolerance + U, or the tolerance
};

/// An instrument of expanded uncertainty `expanded_mm` (95 %) against a tolerance of +- `tolerance_mm` about the middle
/// (T = 2 tolerance_mm). Both > 0. Rule: capability_rule.
constexpr CapabilityAnswer measuring_capability(double expanded_mm, double tolerance_mm) {
  CapabilityAnswer out;
  out.index = tolerance_mm / expanded_mm;
  if (out.index >= capable_index) {
    out.answer = Capability::can;
    out.accept_within_mm = out.reject_beyond_mm = tolerance_mm;
    return out;
  }
  out.answer = out.index > useless_index ? Capability::just : Capability::cannot;
  out.accept_within_mm = out.index > useless_index ? tolerance_mm - expanded_mm : 0.0;
  out.reject_beyond_mm = tolerance_mm + expanded_mm;
  return out;
}

}  // namespace fitwright
