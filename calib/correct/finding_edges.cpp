// Findings on outline edges: how far they stand out, whether that is taken care of already, and flow.
#include <cmath>

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
       "Every outline edge stands " + mm(e.value) + (e.value < 0 ? " inside" : " outside") + " its drawn place " +
           within_mm(e) + ": outsides " + signed_mm(outside) + ", slots " + signed_mm(-outside) + ", at any length.",
       "outsides and slots are off by opposite amounts that do not grow with length; " + rests_on(in.estimates),
       acts ? "set the outline offset, or the flow if a wall test asks for it; not the steps"
            : "nothing, unless parts of yours must slide into each other"});
}

/// Settings that act on an error which is then not to be corrected a second time.
void double_findings(const FindingInput& in, Findings& out) {
  if (!in.options.state) return;
  const State& s = *in.options.state;
  const auto add = [&](const std::string& error, const std::string& knob, const Evidence& left, double effect_mm) {
    if (!left.known || (left.established && in.matters(effect_mm))) return;
    out.push_back({"double", Severity::know,
                   error + " is already taken out by " + knob + ": what is left is " + mm(left.value) + " " +
                       within_mm(left) + ".",
                   "the coupon was printed with it switched on, so the readings show only what it leaves over",
                   "nothing more: a second knob would act on the same error twice"});
  };
  const Evidence e = in.of(name::edge_growth);
  if (s.outline_offset_mm != 0)
    add("Edge growth", "the outline offset of " + signed_mm(s.outline_offset_mm), e, 2 * e.value);
  if (s.size_factor != 1.0) {
    Evidence shared = shared_scale(in.estimates);
    shared.value *= in.options.length_mm;
    shared.u *= in.options.length_mm;
    add("Shrinkage", "the size factor of " + signed_percent(s.size_factor - 1), shared, shared.value);
  }
  const Evidence flare = in.of(name::flare);
  if (s.first_layer_inset_mm != 0)
    add("The flare of the first layers", "their inset of " + mm(s.first_layer_inset_mm), flare, 2 * flare.value);
  if (s.hole_offset_mm != 0 && in.of(name::hole_c0).known)
    out.push_back({"double", Severity::know,
                   "A hole offset of " + signed_mm(s.hole_offset_mm) +
                       " was switched on: the closing found here is what it leaves over.",
                   "sizes to draw hold with that offset in force only",
                   "keep the offset as it is and draw holes to the sizes told here, or set it to 0 and print again"});
}

void flow_finding(const FindingInput& in, Findings& out) {
  const auto flow = flow_evidence(in.estimates, in.state(), in.options.block);
  if (!flow) return;
  const Evidence excess = flow->excess();
  std::string sentence = flow->holds + " " + percent(excess.value) + (excess.value < 0 ? " less" : " more") +
                         " plastic than asked for " + within_percent(excess);
  sentence.front() = static_cast<char>(sentence.front() - 'a' + 'A');
  if (flow->contradicts)
    out.push_back({"flow", Severity::know, sentence + ".", flow->because,
                   "look at the bead widths of the walls, and whether the block was printed solid, before any flow is "
                   "changed"});
  else if (excess.established)
    out.push_back({"flow", Severity::act, sentence + ".", flow->because,
                   "change the flow as the correction says, once, and print the test again"});
  else
    out.push_back({"flow", Severity::know, sentence + ": not sure enough to change the flow.", flow->because,
                   "leave it" + (flow->better.empty() ? "" : ", or " + flow->better)});
}

}  // namespace

void edge_findings(const FindingInput& in, Findings& out) {
  edge_growth_finding(in, out);
  double_findings(in, out);
  flow_finding(in, out);
}

}  // namespace fitwright
