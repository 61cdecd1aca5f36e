// Findings on the scale of X and Y: short or long, the machine or the plastic, or not to be told from edge growth.
#include <algorithm>
#include <cmath>
#include <set>

#include "base/number.hpp"
#include "base/words.hpp"
#include "correct/finding_parts.hpp"
#include "correct/phrase.hpp"

namespace fitwright {
namespace {

constexpr const char* frame_advice =
    noted("print the frame coupon as large as bed and caliper allow: long and short outsides and slots on both axes");

std::string effect_text(const FindingInput& in, double scale) {
  return said("{} on {}", mm(in.on_length(scale)), length(in.options.length_mm));
}

std::string because_scale(const FindingInput& in, const Evidence& scale, char axis) {
  const double longest = longest_lengths(in.estimates)[static_cast<std::size_t>(axis - 'x')];
  const std::string value = signed_percent(scale.value), half = within_percent(scale), rests = rests_on(in.estimates);
  return longest > 0
             ? said("measured {} {} against 0 expected, lengths up to {}; {}", value, half, length(longest), rests)
             : said("measured {} {} against 0 expected; {}", value, half, rests);
}

void axis_finding(const FindingInput& in, char axis, const char* parameter, Findings& out) {
  const Evidence s = in.of(parameter);
  if (!s.known) return;
  const std::string a = axis_name(axis);
  if (s.established && in.matters(in.on_length(s.value))) {
    out.push_back({"scale-axis", Severity::act,
                   filled(s.value < 0 ? tr("{} is {} short {}: {}.") : tr("{} is {} long {}: {}."), a, percent(s.value),
                          within_percent(s), effect_text(in, s.value)),
                   because_scale(in, s, axis),
                   tr("correct it with one knob only: the size factor for what X and Y share, the steps of the axes "
                      "for what they differ by")});
    return;
  }
  const bool value_matters = in.matters(in.on_length(s.value));
  const bool may_matter = in.matters(std::abs(in.on_length(s.value)) + in.on_length(s.half_width()));
  if (s.established || !may_matter) return;
  const std::string text =
      value_matters ? filled(s.value < 0 ? tr("{} may be {} short {}: {}, but that is not enough to act on.")
                                         : tr("{} may be {} long {}: {}, but that is not enough to act on."),
                             a, percent(s.value), within_percent(s), effect_text(in, s.value))
                    : said("{} shows no error of scale, but it is known to {} only: up to {} on {} would go unseen.", a,
                           percent(s.half_width()), mm(std::abs(in.on_length(s.value)) + in.on_length(s.half_width())),
                           length(in.options.length_mm));
  out.push_back({"scale-likely", Severity::know, text, because_scale(in, s, axis),
                 tr("if it matters to you, print the longest coupon that bed and caliper allow once more, turned by 90 "
                    "degrees")});
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
                   said("X and Y differ by {} {}, {}: that is the machine, not the plastic.", percent(difference.value),
                        within_percent(difference), effect_text(in, difference.value)),
                   said("one plastic shrinks alike along both; X is {}, Y {}",
                        signed_percent(in.of(name::scale_x).value), signed_percent(in.of(name::scale_y).value)),
                   !acts         ? tr("nothing: it is below your tolerance")
                   : long_enough ? tr("change the steps of the two axes by their difference only")
                                 : said("measure a length of {} or how far both axes really travel, then change their "
                                        "steps by the difference only",
                                        length(least_length_for_steps_mm))});
  } else if (shared.established && in.matters(in.on_length(shared.value))) {
    out.push_back(
        {"axes-agree", Severity::know,
         filled(shared.value < 0 ? tr("Both axes are short by the same {} {}: plastic shrinks; leave the steps alone.")
                                 : tr("Both axes are long by the same {} {}: plastic shrinks; leave the steps alone."),
                percent(shared.value), within_percent(shared)),
         said("the difference between them, {} {}, is not established", percent(difference.value),
              within_percent(difference)),
         tr("set the size factor of this material")});
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
  for (const char a : axes) which += (which.empty() ? "" : tr(" and ")) + axis_name(a);
  out.push_back({"one-length", Severity::act,
                 said("From one length on {}, scale and edge growth cannot be told apart: steps set from it would "
                      "spoil every longer part.",
                      which),
                 said("a part that is {} mm too large may be {} % too long at 20 mm or have edges {} mm outside at any "
                      "length",
                      said_fixed(0.16, 2), said_fixed(0.8, 1), said_fixed(0.08, 2)),
                 tr(frame_advice)});
}

void theory_finding(const FindingInput& in, char axis, const char* parameter, double present, Findings& out) {
  const Evidence s = in.of(parameter);
  if (!s.known || !s.established) return;
  double expected = present;
  const char* sentence =
      tr("the present setting is {} steps per mm on {}; taking the whole error into them would give {}, "
         "more than belts and pulleys do.");
  if (const auto drive = in.options.drive.find(axis); drive != in.options.drive.end())
    if (const auto theory = theory_steps_per_mm(drive->second); theory.ok()) {
      expected = *theory;
      sentence =
          tr("motor, belt and pulley say {} steps per mm on {}; taking the whole error into them would give {}, "
             "more than belts and pulleys do.");
    }
  const double proposed = present / (1 + s.value);
  if (std::abs(proposed / expected - 1) <= theory_limit) return;
  out.push_back(
      {"theory", Severity::know, filled(sentence, said_fixed(expected, 2), axis_name(axis), said_fixed(proposed, 2)),
       said("steps from theory hold within about {}; this would be {}", percent(theory_u),
            percent(proposed / expected - 1)),
       tr("look for plastic shrinkage, edge growth, a loose belt or a wrong pulley before steps are touched")});
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
