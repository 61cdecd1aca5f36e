// Tolerances in plain words.

#include "base/words.hpp"
#include "fits/iso286.hpp"

namespace fitwright {
namespace {

constexpr double um_per_mm = 1000;

std::string signed_um(double um) { return (um > 0 ? "+" : "") + said_shortest(um); }

std::string limits_line(double nominal_mm, const ClassLimits& limits) {
  const std::string from = said_shortest(nominal_mm + limits.lower_um / um_per_mm);
  const std::string to = said_shortest(nominal_mm + limits.upper_um / um_per_mm);
  return limits.hole ? said("Hole {}: {} to {} mm ({} to {} µm).", limits.name, from, to, signed_um(limits.lower_um),
                            signed_um(limits.upper_um))
                     : said("Shaft {}: {} to {} mm ({} to {} µm).", limits.name, from, to, signed_um(limits.lower_um),
                            signed_um(limits.upper_um));
}

std::string fit_line(const ToleranceAnswer& a) {
  const double most = *a.clearance_max_um / um_per_mm, least = *a.clearance_min_um / um_per_mm;
  switch (*a.fit) {
    case FitKind::clearance:
      return said("Clearance fit: {} to {} mm of clearance.", said_shortest(least), said_shortest(most));
    case FitKind::interference:
      return said("Interference fit: {} to {} mm of interference.", said_shortest(-most + 0.0), said_shortest(-least));
    case FitKind::transition:
      break;
  }
  return said("Transition fit: from {} mm of interference to {} mm of clearance.", said_shortest(-least),
              said_shortest(most));
}

}  // namespace

std::string in_words(const ToleranceAnswer& a) {
  std::string out;
  const auto line = [&](const std::string& text) { out += text + '\n'; };
  if (a.hole) line(limits_line(a.nominal_mm, *a.hole));
  if (a.shaft) line(limits_line(a.nominal_mm, *a.shaft));
  if (a.fit) line(fit_line(a));
  if (a.general)
    line(said("General tolerance of class {} (ISO 2768-1): {} mm, plus or minus {} mm.",
              std::string(1, a.general->name), said_shortest(a.nominal_mm), said_shortest(a.general->plus_minus_mm)));
  if (a.hole || a.shaft)
    line(
        tr("ISO 286 is made for machined parts: whether a printer holds such limits is what its achieved grade says."));
  return out;
}

}  // namespace fitwright
