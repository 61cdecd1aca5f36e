// Findings on the caliper: its zero, its inside jaws, and whether it can judge the tolerance at all.
#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"
#include "correct/finding_parts.hpp"
#include "correct/phrase.hpp"
#include "model/priors.hpp"
#include "stats/capability.hpp"

namespace fitwright {
namespace {

constexpr double display_step_mm = 0.01;

bool has_kind(const ReadingSet& set, Kind kind) {
  return std::any_of(set.rows.begin(), set.rows.end(), [&](const Reading& r) { return r.feature.kind == kind; });
}

bool prior_used(const Estimates& e, const char* parameter) {
  return std::any_of(e.priors.begin(), e.priors.end(), [&](const PriorUsed& p) { return p.parameter == parameter; });
}

void zero_finding(const FindingInput& in, bool steel, Findings& out) {
  const Evidence o = in.of(name::caliper_zero);
  if (steel) {
    if (!o.known || std::abs(o.value) < display_step_mm / 2) return;
    out.push_back({"zero", Severity::know,
                   said("The caliper reads {} {} too much on known steel: it is taken off all readings.",
                        signed_mm(o.value), within_mm(o)),
                   tr("closed jaws or gauges read before the print"),
                   tr("wipe the jaws and set the zero before the next session")});
    return;
  }
  if (!prior_used(in.estimates, name::caliper_zero)) return;
  out.push_back({"zero", Severity::know,
                 said("The caliper's zero was not read: it is taken as 0 (± {}), and any error of it counts as edge "
                      "growth.",
                      mm(2 * prior::caliper_zero_mm.sd)),
                 tr("outsides alone show edge growth and zero only as a sum"),
                 tr("wipe and close the jaws, read them, and add that reading as kind zero")});
}

/// Half-width at 95 % of one reading on a known length: repeatability, display and zero together.
double caliper_half_width(const FindingInput& in) {
  constexpr double coverage = 2;  // about 95 % (JCGM 100:2008, 6.2.1)
  const auto repeat = in.estimates.scatter.find("reading_mm");
  const double reading = repeat == in.estimates.scatter.end() ? prior::reading_sd_mm : repeat->second;
  const Evidence o = in.of(name::caliper_zero);
  const double zero = o.known ? o.u : prior::caliper_zero_mm.sd;
  return coverage * std::hypot(reading, zero, prior::resolution_sd_mm);
}

void capability_finding(const FindingInput& in, bool steel, Findings& out) {
  if (in.estimates.cells.empty()) return;
  const double half = caliper_half_width(in);
  const CapabilityAnswer able = measuring_capability(half, in.options.tolerance_mm);
  const std::string judged = "± " + mm(in.options.tolerance_mm);
  const std::string because = said(
      "repeats of one place, the zero and the display together, at 95 %, against a tolerance of {}; measurement "
      "capability index C_m = {} (JCGM 106:2012, 7.6)",
      judged, said_fixed(able.index, 1));
  if (able.answer == Capability::cannot)
    out.push_back({"caliper-capability", Severity::know,
                   said("This caliper, ± {} a reading, cannot judge {} on a single reading.", mm(half), judged),
                   because,
                   tr("read each place three times with light and equal pressure; where that is not enough only a "
                      "better instrument helps")});
  else if (able.answer == Capability::just)
    out.push_back({"caliper-capability", Severity::know,
                   said("This caliper, ± {} a reading, can just judge {}: a single reading within ± {} of the middle "
                        "is good, one beyond ± {} is not.",
                        mm(half), judged, mm(able.accept_within_mm), mm(able.reject_beyond_mm)),
                   because, tr("more copies do not help against the caliper; a micrometer would")});
  else if (steel)
    out.push_back({"caliper-capability", Severity::fine,
                   said("This caliper, ± {} a reading, is good enough to judge {}.", mm(half), judged), because,
                   tr("nothing")});
}

void jaws_finding(const FindingInput& in, Findings& out) {
  double smallest = 0;
  for (const Cell& c : in.estimates.cells)
    if (c.kind == Kind::hole && (smallest == 0 || c.feature.nominal_mm < smallest)) smallest = c.feature.nominal_mm;
  constexpr double small_mm = 10;  // above it the flats of the jaws cost less than the display shows
  if (smallest == 0 || smallest > small_mm || has_kind(in.readings, Kind::ring)) return;
  const double low = prior::jaw_flat_term_mm2.mean / smallest;
  const double u = prior::jaw_flat_term_mm2.sd / smallest;
  const bool assumed = prior_used(in.estimates, "jaw_flat_squared_half_mm2");
  out.push_back(
      {"jaws", Severity::know,
       filled(assumed
                  ? tr("Flat inside jaws read small holes low: typically {} (± {}) at Ø {}; that much is assumed and "
                       "taken off.")
                  : tr("Flat inside jaws read small holes low: typically {} (± {}) at Ø {}."),
              mm(low), mm(2 * u), said_shortest(smallest)),
       tr("no ring was read, so the flats of these jaws are not known; they look just like holes that close more "
          "when small"),
       tr("read a steel ring or a reamed hole of about 3 mm, or try graded drill shanks in the small holes")});
}

}  // namespace

void caliper_findings(const FindingInput& in, Findings& out) {
  const bool steel = has_kind(in.readings, Kind::zero) || has_kind(in.readings, Kind::gauge);
  zero_finding(in, steel, out);
  capability_finding(in, steel, out);
  jaws_finding(in, out);
}

}  // namespace fitwright
