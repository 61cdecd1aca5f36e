// Findings on outline edges: how far they stand out, whether that is taken care of already, and flow.
#include <cmath>

#include "base/words.hpp"
#include "correct/finding_parts.hpp"
#include "correct/flow_evidence.hpp"
#include "correct/phrase.hpp"

namespace fitwright {
namespace {

void edge_growth_finding(const FindingInput& in, Findings& out) {
  const Evidence e = in.of(name::edge_growth);
  if (!e.known || !e.established) return;
  const bool acts = in.matters(2 * e.value);
  const double outside = 2 * e.value;
  out.push_back(
      {"edge-growth", acts ? Severity::act : Severity::know,
       filled(
           e.value < 0
               ? tr("Every outline edge stands {} inside its drawn place {}: outsides {}, slots {}, at any length.")
               : tr("Every outline edge stands {} outside its drawn place {}: outsides {}, slots {}, at any length."),
           mm(e.value), within_mm(e), signed_mm(outside), signed_mm(-outside)),
       said("outsides and slots are off by opposite amounts that do not grow with length; {}", rests_on(in.estimates)),
       acts ? tr("set the outline offset, or the flow if a wall test asks for it; not the steps")
            : tr("nothing, unless parts of yours must slide into each other")});
}

/// Settings that act on an error which is then not to be corrected a second time.
void double_findings(const FindingInput& in, Findings& out) {
  if (!in.options.state) return;
  const State& s = *in.options.state;
  const auto add = [&](const std::string& error, const std::string& knob, const Evidence& left, double effect_mm) {
    if (!left.known || (left.established && in.matters(effect_mm))) return;
    out.push_back(
        {"double", Severity::know,
         said("{} is already taken out by {}: what is left is {} {}.", error, knob, mm(left.value), within_mm(left)),
         tr("the coupon was printed with it switched on, so the readings show only what it leaves over"),
         tr("nothing more: a second knob would act on the same error twice")});
  };
  const Evidence e = in.of(name::edge_growth);
  if (s.outline_offset_mm != 0)
    add(tr("Edge growth"), said("the outline offset of {}", signed_mm(s.outline_offset_mm)), e, 2 * e.value);
  if (s.size_factor != 1.0) {
    Evidence shared = shared_scale(in.estimates);
    shared.value *= in.options.length_mm;
    shared.u *= in.options.length_mm;
    add(tr("Shrinkage"), said("the size factor of {}", signed_percent(s.size_factor - 1)), shared, shared.value);
  }
  const Evidence flare = in.of(name::flare);
  if (s.first_layer_inset_mm != 0)
    add(tr("The flare of the first layers"), said("their inset of {}", mm(s.first_layer_inset_mm)), flare,
        2 * flare.value);
  if (s.hole_offset_mm != 0 && in.of(name::hole_c0).known)
    out.push_back(
        {"double", Severity::know,
         said("A hole offset of {} was switched on: the closing found here is what it leaves over.",
              signed_mm(s.hole_offset_mm)),
         tr("sizes to draw hold with that offset in force only"),
         tr("keep the offset as it is and draw holes to the sizes told here, or set it to 0 and print again")});
}

void flow_finding(const FindingInput& in, Findings& out) {
  const auto flow = flow_evidence(in.estimates, in.state(), in.options.block);
  if (!flow) return;
  const Evidence excess = flow->excess();
  std::string sentence =
      filled(excess.value < 0 ? tr("{} {} less plastic than asked for {}") : tr("{} {} more plastic than asked for {}"),
             flow->holds, percent(excess.value), within_percent(excess));
  if (sentence.front() >= 'a' && sentence.front() <= 'z')
    sentence.front() = static_cast<char>(sentence.front() - 'a' + 'A');
  if (flow->contradicts)
    out.push_back({"flow", Severity::know, sentence + ".", flow->because,
                   tr("look at the bead widths of the walls, and whether the block was printed solid, before any flow "
                      "is changed")});
  else if (excess.established)
    out.push_back({"flow", Severity::act, sentence + ".", flow->because,
                   tr("change the flow as the correction says, once, and print the test again")});
  else
    out.push_back({"flow", Severity::know, said("{}: not sure enough to change the flow.", sentence), flow->because,
                   flow->better.empty() ? std::string(tr("leave it")) : said("leave it, or {}", flow->better)});
}

}  // namespace

void edge_findings(const FindingInput& in, Findings& out) {
  edge_growth_finding(in, out);
  double_findings(in, out);
  flow_finding(in, out);
}

}  // namespace fitwright
