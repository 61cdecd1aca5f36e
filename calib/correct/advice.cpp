#include "correct/advice.hpp"

#include <array>
#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"
#include "correct/algebra.hpp"
#include "correct/phrase.hpp"

namespace fitwright {
namespace {

constexpr int steps_decimals = 4;  // 0.0001 of 80 steps per mm is 0.1 um on 100 mm
constexpr int ratio_decimals = 6;

struct AxisSteps {
  char axis;
  double before;
  double after;
  [[nodiscard]] bool changed() const { return before != after; }
  [[nodiscard]] double ratio() const { return steps_ratio(before, after); }
};

std::array<AxisSteps, 3> steps_of(const Correction& c) {
  const StepsPerMm& was = c.before.steps_per_mm;
  const StepsPerMm& is = c.after.steps_per_mm;
  return {{{'x', was.x, is.x}, {'y', was.y, is.y}, {'z', was.z, is.z}}};
}

bool any_changed(const std::array<AxisSteps, 3>& steps) {
  for (const AxisSteps& s : steps)
    if (s.changed()) return true;
  return false;
}

std::string m92(const std::array<AxisSteps, 3>& steps, bool after) {
  std::string line = "M92";
  for (const AxisSteps& s : steps)
    if (s.changed()) line += ' ' + axis_name(s.axis) + fixed(after ? s.after : s.before, steps_decimals);
  return line;
}

/// New steps far from what motor, belt and pulley say, or, where that is not known, far from the present ones.
void add_theory(std::vector<std::string>& out, const AxisSteps& s, const CorrectOptions& options) {
  double expected = s.before;
  const char* sentence =
      tr("The new steps of {}, {}, leave the present value, {}, by {}: more than belts and pulleys do. Look for edge "
         "growth taken for scale, a loose belt or a wrong pulley before you set them.");
  if (const auto drive = options.drive.find(s.axis); drive != options.drive.end())
    if (const auto theory = theory_steps_per_mm(drive->second); theory.ok()) {
      expected = *theory;
      sentence =
          tr("The new steps of {}, {}, leave what motor, belt and pulley give, {}, by {}: more than belts and pulleys "
             "do. Look for edge growth taken for scale, a loose belt or a wrong pulley before you set them.");
    }
  const double off = s.after / expected - 1;
  if (!s.changed() || std::abs(off) <= theory_limit) return;
  out.push_back(filled(sentence, axis_name(s.axis), said_fixed(s.after, 2), said_fixed(expected, 2), percent(off)));
}

/// A measured travel that says the machine is right makes a print's scale error the plastic's.
void add_contradiction(std::vector<std::string>& out, const Estimates& estimates, const CorrectOptions& options) {
  if (options.policy != Policy::steps) return;
  constexpr double clearly = 2;  // standard uncertainties, about 95 %
  for (const char axis : {'x', 'y'}) {
    const auto travel = options.travel.find(axis);
    const Parameter* scale = estimates.find(axis == 'x' ? name::scale_x : name::scale_y);
    if (travel == options.travel.end() || !scale) continue;
    const Travel& t = travel->second;
    const double m = t.travelled_mm / t.commanded_mm - 1;
    const double u = std::hypot(scale->u, t.u_mm.value_or(default_travel_u_mm) / t.commanded_mm);
    if (std::abs(scale->value - m) <= clearly * u) continue;
    out.push_back(
        said("{} travels {} off, but its prints are {} off: the difference is the plastic's, and steps set by "
             "it will be wrong for every other material. The machine policy uses both numbers.",
             axis_name(axis), signed_percent(m), signed_percent(scale->value)));
  }
}

}  // namespace

std::vector<std::string> steps_cautions(const Correction& c) {
  std::vector<std::string> out;
  const auto steps = steps_of(c);
  if (any_changed(steps)) {
    out.push_back(
        said("Changing steps per mm changes how far the machine moves. Write down the present values first "
             "({}), and keep a hand on the power switch for the first move.",
             m92(steps, false)));
    if (steps[2].changed())
      out.push_back(
          tr("A wrong Z value can drive the nozzle into the bed: make the first move in Z upwards, from well "
             "above the bed."));
  }
  return out;
}

std::vector<std::string> cautions_for(const Correction& c, const Estimates& estimates, const CorrectOptions& options) {
  std::vector<std::string> out = steps_cautions(c);
  const auto steps = steps_of(c);
  if (c.after.z_offset_mm < c.before.z_offset_mm)
    out.push_back(
        said("The nozzle comes {} nearer to the bed. Some programs count this offset the other way round: "
             "watch the first layer and keep a hand on the power switch.",
             mm(c.after.z_offset_mm - c.before.z_offset_mm)));
  if (options.block && c.before.flow != c.after.flow)
    out.push_back(
        tr("The flow rests on a weighed block: that holds only if the block was printed solid (100 % filled), weighed "
           "cold and alone, without brim or skirt, and if the density is that of this spool."));
  for (const AxisSteps& s : steps) add_theory(out, s, options);
  add_contradiction(out, estimates, options);
  if (!c.changes.empty())
    out.push_back(
        tr("Hot end and bed burn and stay hot: let the bed cool before the proof print is taken off, and never "
           "pry towards the hand."));
  return out;
}

std::vector<std::string> commands_for(const Correction& c, bool other_materials) {
  std::vector<std::string> out;
  const auto steps = steps_of(c);
  if (any_changed(steps)) {
    out.push_back(m92(steps, true));
    std::string per_turn;
    for (const AxisSteps& s : steps)
      if (s.changed())
        per_turn += (per_turn.empty() ? "" : ", ") +
                    said("{} times {}", axis_name(s.axis), fixed(1 / s.ratio(), ratio_decimals));
    out.push_back(said("Where the machine is set by travel per motor turn instead: new = old {}.", per_turn));
    out.push_back(
        tr("Save the new steps in the machine (its save command or its configuration file), or they are lost at "
           "power-off."));
    const double rho = std::sqrt(steps[0].ratio() * steps[1].ratio());
    constexpr double nothing = 1e-9;
    if (other_materials && std::abs(rho - 1) > nothing)
      out.push_back(
          filled(rho > 1 ? tr("Every other material calibrated on this machine: divide its size factor and its outline "
                              "offset by {}, or it comes out {} larger than before.")
                         : tr("Every other material calibrated on this machine: divide its size factor and its outline "
                              "offset by {}, or it comes out {} smaller than before."),
                 fixed(rho, ratio_decimals), percent(rho - 1)));
  }
  if (c.before.size_factor != c.after.size_factor)
    out.push_back(
        tr("In the settings of this material: set the size factor in X and Y, not in Z, in place of the old one."));
  if (c.before.outline_offset_mm != c.after.outline_offset_mm)
    out.push_back(
        tr("In the program that prepares the print: set the outline offset in place of the old one, not on top of "
           "it."));
  if (!c.changes.empty())
    out.push_back(tr("Then print the same coupon once more and read it: only that proves the correction."));
  return out;
}

}  // namespace fitwright
