// Findings on heights, first layers and the squareness of X and Y.
#include <cmath>
#include <numbers>

#include "base/number.hpp"
#include "base/words.hpp"
#include "correct/finding_parts.hpp"
#include "correct/phrase.hpp"

namespace fitwright {
namespace {

void flare_finding(const FindingInput& in, Findings& out) {
  const Evidence f = in.of(name::flare);
  if (!f.known || !f.established || f.value < 0) return;
  out.push_back({"first-layers", Severity::know,
                 said("The first layers stand out by {} {} per edge beyond the rest: measure above them.", mm(f.value),
                      within_mm(f)),
                 said("widths over the foot against widths above it; {}", rests_on(in.estimates)),
                 tr("lift the nozzle a little on the first layer, or draw a chamfer on edges that must mate")});
}

void height_finding(const FindingInput& in, Findings& out) {
  const Evidence z0 = in.of(name::z0);
  const Evidence z = in.of(name::scale_z);
  if (z0.known && z0.established) {
    out.push_back(
        {"height", Severity::know,
         filled(z0.value < 0 ? tr("Heights are {} low {} at any height: that is the first layer, not Z steps.")
                             : tr("Heights are {} high {} at any height: that is the first layer, not Z steps."),
                mm(z0.value), within_mm(z0)),
         z.known ? said("low and high features are off by the same amount; the scale of Z itself is {} {}",
                        signed_percent(z.value), within_percent(z))
                 : std::string(tr("low and high features are off by the same amount")),
         z0.value < 0 ? tr("raise the nozzle on the first layer by that much; never set Z steps from a small "
                           "coupon")
                      : tr("lower the nozzle on the first layer by that much; never set Z steps from a small "
                           "coupon")});
  } else if (z.known && z.established && in.matters(in.on_length(z.value))) {
    out.push_back({"height", Severity::know,
                   filled(z.value < 0 ? tr("Heights are {} short {}.") : tr("Heights are {} long {}."),
                          percent(z.value), within_percent(z)),
                   tr("a screw rarely is; a small coupon cannot carry a change of Z steps"),
                   tr("print one tall piece and measure it before Z steps are touched")});
  }
}

void skew_finding(const FindingInput& in, Findings& out) {
  const Evidence g = in.of(name::skew_xy);
  if (!g.known) return;
  constexpr double degrees = 180 / std::numbers::pi;
  const std::string because = filled(
      g.value > 0 ? tr("the two diagonals compared; + runs from low X, low Y to high X, high Y and is the longer "
                       "one; {}")
                  : tr("the two diagonals compared; + runs from low X, low Y to high X, high Y and is the "
                       "shorter one; {}"),
      rests_on(in.estimates));
  const std::string effect = said("{} on {} {}", mm(in.on_length(g.value)), length(in.options.length_mm),
                                  within(in.on_length(g.half_width())));
  if (g.established) {
    const bool acts = in.matters(in.on_length(g.value));
    out.push_back(
        {"skew", acts ? Severity::act : Severity::know,
         said("The corner between X and Y is off by {}°: {}.", said_fixed(std::abs(g.value) * degrees, 2), effect),
         because,
         acts ? said("loosen and square the frame of the machine, or un-skew the design by gamma = {}",
                     fixed(g.value, 5))
              : tr("nothing: it is below your tolerance")});
  } else {
    out.push_back({"skew", Severity::fine, said("No skew is established: the corner is off by {}.", effect), because,
                   tr("nothing; a second copy turned by 90 degrees would tell a skew machine from a bad corner")});
  }
}

}  // namespace

void shape_findings(const FindingInput& in, Findings& out) {
  flare_finding(in, out);
  height_finding(in, out);
  skew_finding(in, out);
}

}  // namespace fitwright
