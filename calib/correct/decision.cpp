#include "correct/decision.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "base/number.hpp"
#include "base/words.hpp"
#include "correct/phrase.hpp"

namespace fitwright {
namespace {

/// An effect below this share of the tolerance is no reason to turn a knob: at 0.1 mm it is one step of the display.
constexpr double matters_share = 0.1;
/// |t| above which a correction lowers the expected squared error although it is not established.
constexpr double hint_t = 1.41;
/// A wall further off than this is a wrong bead width or a wrong place of the jaws, not flow (common practice).
constexpr double absurd_flow = 0.25;

class Judge {
 public:
  Judge(const Estimates& estimates, const State& state, const CorrectOptions& options, const UncertainErrors& errors,
        Decision& decision)
      : estimates_(estimates), state_(state), options_(options), errors_(errors), d_(decision) {
    longest_ = longest_lengths(estimates);
    if (options.longest_mm > 0) longest_.fill(options.longest_mm);
  }

  void all() {
    d_.plan.policy = options_.policy;
    switch (options_.policy) {
      case Policy::shrink:
        shrink();
        break;
      case Policy::steps:
        steps();
        break;
      case Policy::machine:
        machine();
        break;
      case Policy::shrink_only:
        shrink_only();
        break;
    }
    z_steps();
    flow();
    edge();
    z_offset();
    never_turned();
  }

 private:
  [[nodiscard]] double least_effect_mm() const { return matters_share * options_.tolerance_mm; }

  void leave(const std::string& knob, const std::string& because) { d_.left_alone.emplace_back(knob, because); }
  void turn(const std::string& knob, const std::string& because) { d_.because[knob] = because; }

  /// Why an error is no reason to turn a knob; empty when it is one. `text`: the error in words with its interval.
  [[nodiscard]] std::string objection(const Evidence& e, double effect_mm, const std::string& text) const {
    if (!e.established) {
      const bool hint = e.u > 0 && std::abs(e.value) > hint_t * e.u;
      return filled(hint ? tr("{}: not established; it would more likely help than harm, a second copy turned by 90 "
                              "degrees would tell")
                         : tr("{}: not established; zero is as good a guess"),
                    text);
    }
    if (std::abs(effect_mm) < least_effect_mm())
      return said("{}: {} on {}, below what matters", text, mm(effect_mm), length(options_.length_mm));
    return {};
  }

  [[nodiscard]] std::string scale_objection(const Evidence& e, const char* parameter, const std::string& what) const {
    if (!e.known) return plain_name(parameter) + ": " + why_unknown(estimates_, parameter);
    return objection(e, e.value * options_.length_mm, what + " " + signed_percent(e.value) + " " + within_percent(e));
  }

  /// Why what X and Y share or differ by is no reason; the difference and the mean need both.
  [[nodiscard]] std::string pair_objection(const Evidence& e, const std::string& what) const {
    if (!d_.scale_x.known) return scale_objection(d_.scale_x, name::scale_x, "");
    if (!d_.scale_y.known) return scale_objection(d_.scale_y, name::scale_y, "");
    return scale_objection(e, name::scale_x, what);
  }

  [[nodiscard]] std::string shared_objection() const {
    return pair_objection(d_.shared, tr("the mean scale of X and Y is"));
  }
  [[nodiscard]] std::string difference_objection() const {
    return pair_objection(d_.difference, tr("the difference between X and Y is"));
  }

  [[nodiscard]] std::string length_objection(char axis) const {
    const double longest = longest_[static_cast<std::size_t>(axis - 'x')];
    if (options_.travel.contains(axis) || longest >= least_length_for_steps_mm) return {};
    const std::string least = length(least_length_for_steps_mm);
    return longest > 0 ? said("steps need a length of {} or a measured travel on {}; the longest here is {}", least,
                              axis_name(axis), length(longest))
                       : said("steps need a length of {} or a measured travel on {}; none was measured", least,
                              axis_name(axis));
  }
  [[nodiscard]] std::string lengths_objection() const {
    const std::string x = length_objection('x'), y = length_objection('y');
    if (x.empty() || y.empty()) return x.empty() ? y : x;
    const double longest = std::max(longest_[0], longest_[1]);
    const std::string least = length(least_length_for_steps_mm);
    return longest > 0
               ? said("steps need a length of {} or a measured travel on both X and Y; the longest here is {}", least,
                      length(longest))
               : said("steps need a length of {} or a measured travel on both X and Y; none was measured", least);
  }

  [[nodiscard]] std::string shared_because() const {
    return filled(d_.shared.value < 0 ? tr("X and Y are together {} short {}") : tr("X and Y are together {} long {}"),
                  percent(d_.shared.value), within_percent(d_.shared));
  }
  [[nodiscard]] std::string difference_because() const {
    return said("X and Y differ by {} {}: that is the machine, not the plastic", percent(d_.difference.value),
                within_percent(d_.difference));
  }

  void shrink() {
    const std::string not_shared = shared_objection();
    std::string not_difference = difference_objection();
    if (not_difference.empty()) not_difference = lengths_objection();
    const bool shared = not_shared.empty();
    const bool difference = not_difference.empty();
    d_.plan.scale = shared ? (difference ? ScalePart::both : ScalePart::shared)
                           : (difference ? ScalePart::difference : ScalePart::none);
    turn_or_leave_size_factor(not_shared);
    for (const char* knob : {"steps_per_mm.x", "steps_per_mm.y"}) {
      if (difference)
        turn(knob, difference_because());
      else
        leave(knob, not_difference);
    }
  }

  void turn_or_leave_size_factor(const std::string& objection_found) {
    if (objection_found.empty())
      turn("size_factor", said("{}: the plastic's shrinkage, as far as this policy can tell", shared_because()));
    else
      leave("size_factor", objection_found);
  }

  void shrink_only() {
    const std::string not_shared = shared_objection();
    d_.plan.scale = not_shared.empty() ? ScalePart::shared : ScalePart::none;
    turn_or_leave_size_factor(not_shared);
    for (const char* knob : {"steps_per_mm.x", "steps_per_mm.y"})
      leave(knob, tr("the shrink-only policy leaves the steps alone") + rest_between_axes());
  }

  [[nodiscard]] std::string rest_between_axes() const {
    if (!d_.difference.known) return {};
    return "; " + said("the difference between X and Y, {} {}, stays", percent(d_.difference.value),
                       within_percent(d_.difference));
  }

  void steps() {
    leave("size_factor", tr("the steps policy puts all of the scale into the steps: one error, one knob"));
    const std::string not_x = axis_objection('x', d_.scale_x, name::scale_x);
    const std::string not_y = axis_objection('y', d_.scale_y, name::scale_y);
    const bool long_enough = lengths_objection().empty();
    const bool shared = long_enough && shared_objection().empty();
    const bool difference = long_enough && difference_objection().empty();
    if ((not_x.empty() && not_y.empty()) || (shared && difference))
      d_.plan.scale = ScalePart::both;
    else if (shared)
      d_.plan.scale = ScalePart::shared;
    else if (not_x.empty())
      d_.plan.only_x = true;
    else if (not_y.empty())
      d_.plan.only_y = true;
    else if (difference)
      d_.plan.scale = ScalePart::difference;
    steps_told('x', d_.scale_x, d_.plan.only_x, not_x);
    steps_told('y', d_.scale_y, d_.plan.only_y, not_y);
  }

  [[nodiscard]] std::string axis_objection(char axis, const Evidence& scale, const char* parameter) const {
    const std::string found = scale_objection(scale, parameter, said("the scale of {} is", axis_name(axis)));
    return found.empty() ? length_objection(axis) : found;
  }

  void steps_told(char axis, const Evidence& scale, bool alone, const std::string& objection_found) {
    const std::string knob = std::string("steps_per_mm.") + axis;
    if (alone || d_.plan.scale == ScalePart::both)
      turn(knob, filled(scale.value < 0 ? tr("{} is {} short {}; this policy takes it for the machine's")
                                        : tr("{} is {} long {}; this policy takes it for the machine's"),
                        axis_name(axis), percent(scale.value), within_percent(scale)));
    else if (d_.plan.scale == ScalePart::shared)
      turn(knob, said("{}; a difference between them is not established, so both are turned alike", shared_because()));
    else if (d_.plan.scale == ScalePart::difference)
      turn(knob, said("{}; what they share is not established and stays", difference_because()));
    else
      leave(knob, objection_found.empty() ? tr("the other axis alone is turned") : objection_found);
  }

  /// Error of the machine's travel along an axis, as evidence.
  [[nodiscard]] Evidence travel_error(std::size_t axis) const {
    const std::size_t at = error_at::machine_x + axis;
    const double value = as_vector(errors_.value)[at];
    const double u = std::sqrt(errors_.covariance[at][at]);
    return {true, value, u, std::numeric_limits<double>::infinity(),
            differs_from_zero(value, u, std::numeric_limits<double>::infinity())};
  }

  bool travel_told(char axis) {
    const std::string knob = std::string("steps_per_mm.") + axis;
    if (!options_.travel.contains(axis)) {
      leave(knob, said("no travel was measured on {}: --travel {}=COMMANDED:TRAVELLED", axis_name(axis), axis));
      return false;
    }
    const Evidence m = travel_error(static_cast<std::size_t>(axis - 'x'));
    const std::string found = objection(m, m.value * options_.length_mm,
                                        filled(m.value < 0 ? tr("{} travels {} short {}") : tr("{} travels {} far {}"),
                                               axis_name(axis), percent(m.value), within_percent(m)));
    if (!found.empty()) {
      leave(knob, found);
      return false;
    }
    turn(knob, filled(m.value < 0 ? tr("{} travels {} less than commanded {}, measured on the machine itself")
                                  : tr("{} travels {} more than commanded {}, measured on the machine itself"),
                      axis_name(axis), percent(m.value), within_percent(m)));
    return true;
  }

  void machine() {
    d_.plan.machine_x = travel_told('x');
    d_.plan.machine_y = travel_told('y');
    // What is left for the plastic once the machine is right.
    Evidence rest = d_.shared;
    for (std::size_t axis = 0; axis < 2; ++axis) {
      if (!(axis == 0 ? d_.plan.machine_x : d_.plan.machine_y)) continue;
      const Evidence m = travel_error(axis);
      rest.value -= m.value / 2;
      rest.u = std::hypot(rest.u, m.u / 2);
    }
    rest.established = rest.known && differs_from_zero(rest.value, rest.u, rest.df);
    const std::string found =
        pair_objection(rest, tr("with the machine's own error taken out, the mean of X and Y is"));
    d_.plan.scale = found.empty() ? ScalePart::shared : ScalePart::none;
    if (found.empty())
      turn("size_factor",
           filled(rest.value < 0 ? tr("with the machine's own error taken out, X and Y are together {} short {}: "
                                      "the plastic's shrinkage")
                                 : tr("with the machine's own error taken out, X and Y are together {} long {}: "
                                      "the plastic's shrinkage"),
                  percent(rest.value), within_percent(rest)));
    else
      leave("size_factor", found);
  }

  void z_steps() {
    const char* knob = "steps_per_mm.z";
    const Evidence z = evidence(estimates_, name::scale_z);
    if (options_.policy == Policy::machine) {
      if (options_.travel.contains('z'))
        d_.plan.machine_z = travel_told('z');
      else
        leave(knob, tr("no travel was measured on Z"));
      return;
    }
    std::string found = scale_objection(z, name::scale_z, tr("the scale of Z is"));
    if (found.empty()) found = length_objection('z');
    if (found.empty() && options_.policy != Policy::steps)
      found = said("this policy leaves Z alone; scaling the model in Z is rounded to whole layers: {}",
                   layers_text(z.value));
    if (!found.empty()) return leave(knob, found);
    d_.plan.steps_z = true;
    turn(knob, filled(z.value < 0 ? tr("heights are {} short {}") : tr("heights are {} long {}"), percent(z.value),
                      within_percent(z)));
  }

  [[nodiscard]] std::string layers_text(double scale_z) const {
    constexpr double example_mm = 20;
    const int drawn = whole_layers(example_mm, state_.layer_height_mm, 0).layers;
    const int more = whole_layers(example_mm, state_.layer_height_mm, scale_z).layers - drawn;
    return filled(tr("{} layer on {}", "{} layers on {}", static_cast<std::size_t>(std::abs(more))), more,
                  length(example_mm));
  }

  void flow() {
    if (!d_.flow)
      return leave("flow",
                   tr("no one-bead wall was read and no block weighed; flow is never set from an outside length"));
    const Evidence excess = d_.flow->excess();
    const std::string text = filled(
        excess.value < 0 ? tr("{} {} less plastic than asked for {}") : tr("{} {} more plastic than asked for {}"),
        d_.flow->holds, percent(excess.value), within_percent(excess));
    if (d_.flow->contradicts)
      return leave("flow",
                   said("{}: look at the bead widths of the walls, and whether the block was printed solid", text));
    if (!excess.established) return leave("flow", said("{}: not sure enough to change it", text));
    if (std::abs(excess.value) > absurd_flow)
      return leave("flow", said("{}: more than flow can be off; check the bead width that was drawn, or the block's "
                                "volume and that it was printed solid",
                                text));
    d_.plan.flow = true;
    turn("flow", text);
  }

  void edge() {
    const char* knob = "outline_offset_mm";
    if (!d_.edge.known) return leave(knob, why_unknown(estimates_, name::edge_growth));
    Evidence e = d_.edge;
    std::string after_flow;
    if (d_.plan.flow) {
      const double change = errors_.value.flow - state_.flow;
      e.value += state_.flow_edge_gain_mm * change;
      e.u = std::hypot(e.u, change * std::sqrt(errors_.covariance[error_at::edge_gain][error_at::edge_gain]),
                       state_.flow_edge_gain_mm * std::sqrt(errors_.covariance[error_at::flow][error_at::flow]));
      e.established = differs_from_zero(e.value, e.u, e.df);
      after_flow = tr(" once the new flow is set");
    }
    const std::string text = filled(e.value < 0 ? tr("edges stand {} inside their drawn place {}{}")
                                                : tr("edges stand {} outside their drawn place {}{}"),
                                    mm(e.value), within_mm(e), after_flow);
    if (const std::string found = objection(e, 2 * e.value, text); !found.empty()) return leave(knob, found);
    d_.plan.edge = true;
    turn(knob, d_.plan.flow
                   ? text
                   : said("{}; neither walls nor a weighed block ask for another flow, so the outline takes it: one "
                          "error, one knob",
                          text));
  }

  void z_offset() {
    const char* knob = "z_offset_mm";
    const Evidence z0 = evidence(estimates_, name::z0);
    if (!z0.known) return leave(knob, why_unknown(estimates_, name::z0));
    const std::string text =
        filled(z0.value < 0 ? tr("heights are {} low at any height {}") : tr("heights are {} high at any height {}"),
               mm(z0.value), within_mm(z0));
    if (const std::string found = objection(z0, z0.value, text); !found.empty()) return leave(knob, found);
    if (std::abs(z0.value) > state_.first_layer_height_mm / 2)
      return leave(knob, said("{}: more than half of the first layer; look for lifted corners or a burr first", text));
    d_.plan.z_offset = true;
    turn(knob, said("{}: that is the first layer's height, not Z steps", text));
  }

  /// Errors that have no knob in a state of settings.
  void never_turned() {
    if (const Evidence flare = evidence(estimates_, name::flare); flare.known)
      leave("first_layer_inset_mm", said("the first layers stand out by {} {} per edge; an inset takes it away only "
                                         "roughly: first lift the nozzle a little, or relieve the lower edge in the "
                                         "drawing",
                                         mm(flare.value), within_mm(flare)));
    if (const Evidence c0 = evidence(estimates_, name::hole_c0); c0.known)
      leave("hole_offset_mm", tr("holes close by a constant and a part that grows towards small ones, which no single "
                                 "offset takes away: draw each hole to size"));
    if (const Evidence skew = evidence(estimates_, name::skew_xy); skew.known) leave("skew", skew_text(skew));
  }

  [[nodiscard]] std::string skew_text(const Evidence& skew) const {
    const std::string effect = said("{} on {} {}", mm(skew.value * options_.length_mm), length(options_.length_mm),
                                    within(skew.half_width() * options_.length_mm));
    if (!skew.established) return said("the corner is off by {}: not established", effect);
    return said(
        "the corner is off by {}: no knob here takes it; square the frame of the machine, or un-skew the "
        "design with gamma = {} (x becomes x - gamma y)",
        effect, fixed(skew.value, 5));
  }

  const Estimates& estimates_;
  const State& state_;
  const CorrectOptions& options_;
  const UncertainErrors& errors_;
  Decision& d_;
  std::array<double, 3> longest_{};
};

}  // namespace

std::string Decision::because_of(const std::string& knob) const {
  const auto found = because.find(knob);
  return found == because.end() ? std::string() : found->second;
}

Decision decide(const Estimates& estimates, const State& state, const CorrectOptions& options,
                const std::optional<FlowEvidence>& flow, const UncertainErrors& errors) {
  Decision d;
  d.scale_x = evidence(estimates, name::scale_x);
  d.scale_y = evidence(estimates, name::scale_y);
  d.shared = shared_scale(estimates);
  d.difference = scale_difference(estimates);
  d.edge = evidence(estimates, name::edge_growth);
  d.flow = flow;
  Judge(estimates, state, options, errors, d).all();
  return d;
}

}  // namespace fitwright
