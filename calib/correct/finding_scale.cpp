// Findings on the scale of X and Y: short or long, the machine or the plastic, or not to be told from edge growth.
#include <algorithm>
#include <cmath>
#include <set>

#include "base/number.hpp"
#include "correct/finding_parts.hpp"
#include "correct/phrase.hpp"

namespace fitwright {
namespace {

constexpr const char* frame_advice =
    "print the frame coupon as large as bed and caliper allow: long and short outsides and slots on both axes";

std::string effect_text(const FindingInput& in, double scale) {
  return mm(in.on_length(scale)) + " on " + length(in.options.length_mm);
}

std::string because_scale(const FindingInput& in, const Evidence& scale, char axis) {
  const double longest = longest_lengths(in.estimates)[static_cast<std::size_t>(axis - 'x')];
  std::string text = "measured " + signed_percent(scale.value) + " " + within_percent(scale) + " against 0 expected";
  if (longest > 0) text += ", lengths up to " + length(longest);
  return text + "; " + rests_on(in.estimates);
}

void axis_finding(const FindingInput& in, char axis, const char* parameter, Findings& out) {
  const Evidence s = in.of(parameter);
  if (!s.known) return;
  const std::string a = axis_name(axis);
  if (s.established && in.matters(in.on_length(s.value))) {
    out.push_back({"scale-axis", Severity::act,
                   a + " is " + percent(s.value) + " " + short_or_long(s.value) + " " + within_percent(s) + ": " +
                       effect_text(in, s.value) + ".",
                   because_scale(in, s, axis),
                   "correct it with one knob only: the size factor for what X and Y share, the steps of the axes for "
                   "what they differ by"});
    return;
  }
  const bool value_matters = in.matters(in.on_length(s.value));
  const bool may_matter = in.matters(std::abs(in.on_length(s.value)) + in.on_length(s.half_width()));
  if (s.established || !may_matter) return;
  const std::string text =
      value_matters ? a + " may be " + percent(s.value) + " " + short_or_long(s.value) + " " + within_percent(s) +
                          ": " + effect_text(in, s.value) + ", but that is not enough to act on."
                    : a + " shows no error of scale, but it is known to " + percent(s.half_width()) + " only: up to " +
                          mm(std::abs(in.on_length(s.value)) + in.on_length(s.half_width())) + " on " +
                          length(in.options.length_mm) + " would go unseen.";
  out.push_back({"scale-likely", Severity::know, text, because_scale(in, s, axis),
                 "if it matters to you, print the longest coupon that bed and caliper allow once more, turned by 90 "
                 "degrees"});
}

void axes_findings(const FindingInput& in, Findings& out) {
  const Evidence difference = scale_difference(in.estimates);
  const Evidence shared = shared_scale(in.estimates);
  if (!difference.known) return;
  if (difference.established) {
    const bool acts = in.matters(in.on_length(difference.value));
    const auto longest = longest_lengths(in.estimates);
    const bool long_enough = std::min(longest[0], longest[1]) >= least_length_for_steps_mm;
    out.push_back({"axes-differ", acts ? Severity::act : Severity::know,
                   "X and Y differ by " + percent(difference.value) + " " + within_percent(difference) + ", " +
                       effect_text(in, difference.value) + ": that is the machine, not the plastic.",
                   "one plastic shrinks alike along both; X is " + signed_percent(in.of(name::scale_x).value) + ", Y " +
                       signed_percent(in.of(name::scale_y).value),
                   !acts         ? "nothing: it is below your tolerance"
                   : long_enough ? "change the steps of the two axes by their difference only"
                                 : "measure a length of " + length(least_length_for_steps_mm) +
                                       " or how far both axes really travel, then change their steps by the difference "
                                       "only"});
  } else if (shared.established && in.matters(in.on_length(shared.value))) {
    out.push_back({"axes-agree", Severity::know,
                   "Both axes are " + short_or_long(shared.value) + " by the same " + percent(shared.value) + " " +
                       within_percent(shared) + ": plastic shrinks; leave the steps alone.",
                   "the difference between them, " + percent(difference.value) + " " + within_percent(difference) +
                       ", is not established",
                   "set the size factor of this material"});
  }
}

/// Axes of which only one outside length was read, so that nothing tells scale from edge growth.
std::set<char> axes_with_one_length(const Estimates& estimates) {
  std::set<double> nominal[2];
  bool scale_known[2] = {estimates.find(name::scale_x) != nullptr, estimates.find(name::scale_y) != nullptr};
  for (const Cell& cell : estimates.cells)
    if (cell.kind == Kind::outer && (cell.axis == Axis::x || cell.axis == Axis::y))
      nominal[cell.axis == Axis::x ? 0 : 1].insert(cell.feature.nominal_mm);
  std::set<char> out;
  for (int a = 0; a < 2; ++a)
    if (!scale_known[a] && nominal[a].size() == 1) out.insert(a == 0 ? 'x' : 'y');
  return out;
}

void one_length_finding(const FindingInput& in, Findings& out) {
  const std::set<char> axes = axes_with_one_length(in.estimates);
  if (axes.empty()) return;
  std::string which;
  for (const char a : axes) which += (which.empty() ? "" : " and ") + axis_name(a);
  out.push_back({"one-length", Severity::act,
                 "From one length on " + which +
                     ", scale and edge growth cannot be told apart: steps set from it would "
                     "spoil every longer part.",
                 "a part that is 0.16 mm too large may be 0.8 % too long at 20 mm or have edges 0.08 mm outside at any "
                 "length",
                 frame_advice});
}

void theory_finding(const FindingInput& in, char axis, const char* parameter, double present, Findings& out) {
  const Evidence s = in.of(parameter);
  if (!s.known || !s.established) return;
  double expected = present;
  std::string who = "the present setting is";
  if (const auto drive = in.options.drive.find(axis); drive != in.options.drive.end())
    if (const auto theory = theory_steps_per_mm(drive->second); theory.ok()) {
      expected = *theory;
      who = "motor, belt and pulley say";
    }
  const double proposed = present / (1 + s.value);
  if (std::abs(proposed / expected - 1) <= theory_limit) return;
  out.push_back({"theory", Severity::know,
                 who + " " + fixed(expected, 2) + " steps per mm on " + axis_name(axis) +
                     "; taking the whole error into them would give " + fixed(proposed, 2) +
                     ", more than belts and pulleys do.",
                 "steps from theory hold within about " + percent(theory_u) + "; this would be " +
                     percent(proposed / expected - 1),
                 "look for plastic shrinkage, edge growth, a loose belt or a wrong pulley before steps are touched"});
}

}  // namespace

void scale_findings(const FindingInput& in, Findings& out) {
  axis_finding(in, 'x', name::scale_x, out);
  axis_finding(in, 'y', name::scale_y, out);
  axes_findings(in, out);
  one_length_finding(in, out);
  if (!in.options.state) return;
  theory_finding(in, 'x', name::scale_x, in.options.state->steps_per_mm.x, out);
  theory_finding(in, 'y', name::scale_y, in.options.state->steps_per_mm.y, out);
}

}  // namespace fitwright
