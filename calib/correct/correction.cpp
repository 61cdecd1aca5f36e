#include "correct/correction.hpp"

#include <cmath>
#include <limits>
#include <stdexcept>
#include <utility>

#include "base/number.hpp"
#include "base/words.hpp"
#include "correct/advice.hpp"
#include "correct/decision.hpp"
#include "correct/phrase.hpp"
#include "correct/plan.hpp"
#include "correct/remaining.hpp"

namespace fitwright {
namespace {

constexpr double least_travel_mm = 10;  // less cannot tell a machine's scale with any ruler
constexpr double absurd_travel = 0.1;   // relative; more is a slip or the wrong axis

std::string axis_text(char axis) { return std::string(1, axis); }

Problems travel_problems(const std::map<char, Travel>& travel) {
  Problems problems;
  const auto refuse = [&](char axis, const std::string& what, const std::string& remedy) {
    problems.push_back({Code::usage, {}, said("travel of {}: {}", axis_text(axis), what), remedy});
  };
  for (const auto& [axis, t] : travel) {
    if (axis != 'x' && axis != 'y' && axis != 'z') {
      refuse(axis, tr("no such axis"), tr("give x, y or z"));
    } else if (!(t.commanded_mm >= least_travel_mm) || !std::isfinite(t.commanded_mm)) {
      refuse(axis, said("commanded {} mm", said_shortest(t.commanded_mm)),
             said("command a move of 100 mm or more, at least {}", said_shortest(least_travel_mm)));
    } else if (!(t.travelled_mm > 0) || std::abs(t.travelled_mm / t.commanded_mm - 1) > absurd_travel) {
      refuse(axis,
             said("travelled {} mm for {} commanded", said_shortest(t.travelled_mm), said_shortest(t.commanded_mm)),
             tr("measure again; give COMMANDED:TRAVELLED in mm"));
    } else if (t.u_mm && !(*t.u_mm > 0)) {
      refuse(axis, said("its uncertainty is {} mm", said_shortest(*t.u_mm)), tr("give a standard uncertainty above 0"));
    }
  }
  return problems;
}

double machine_error(const Travel& t) { return t.travelled_mm / t.commanded_mm - 1; }
double machine_u(const Travel& t) { return t.u_mm.value_or(default_travel_u_mm) / t.commanded_mm; }

/// The errors with everything that is known about them.
UncertainErrors gathered(const Estimates& estimates, const State& state, const CorrectOptions& options,
                         const std::optional<FlowEvidence>& flow) {
  UncertainErrors out;
  out.value.fit = {estimates.value_or(name::scale_x, 0), estimates.value_or(name::scale_y, 0),
                   estimates.value_or(name::edge_growth, 0)};
  out.value.scale_z = estimates.value_or(name::scale_z, 0);
  out.value.z0_mm = estimates.value_or(name::z0, 0);
  out.value.flow = flow ? flow->test.flow_new : state.flow;
  out.value.edge_gain_mm = state.flow_edge_gain_mm;
  out.df.fill(std::numeric_limits<double>::infinity());

  constexpr std::array<const char*, 5> names{name::scale_x, name::scale_y, name::edge_growth, name::scale_z, name::z0};
  for (std::size_t i = 0; i < names.size(); ++i) {  // the first places of an ErrorVector
    const Parameter* p = estimates.find(names[i]);
    if (!p) continue;
    out.df[i] = p->df;
    for (std::size_t j = 0; j < names.size(); ++j)
      out.covariance[i][j] = i == j ? p->u * p->u : estimates.cov(names[i], names[j]);
  }
  double* const machine[] = {&out.value.machine.x, &out.value.machine.y, &out.value.machine_z};
  for (const auto& [axis, t] : options.travel) {
    const auto i = static_cast<std::size_t>(axis - 'x');
    *machine[i] = machine_error(t);
    out.covariance[error_at::machine_x + i][error_at::machine_x + i] = machine_u(t) * machine_u(t);
  }
  if (flow) out.covariance[error_at::flow][error_at::flow] = flow->test.u * flow->test.u;
  const double u_gain = edge_gain(state.bead_width_mm, state.layer_height_mm).u_mm();
  out.covariance[error_at::edge_gain][error_at::edge_gain] = u_gain * u_gain;
  return out;
}

/// What the readings can tell of what the policy acts on; a problem when that is nothing.
std::optional<Problem> unanswerable(const Estimates& estimates, const CorrectOptions& options, const Decision& d) {
  // Nothing prints that far off: the readings hold a slip, a wrong unit or the wrong nominals.
  constexpr double absurd_scale = 0.1;
  constexpr double absurd_edge_mm = 1;
  for (const Parameter& p : estimates.parameters) {
    const bool in_plane = p.name == name::scale_x || p.name == name::scale_y;
    const bool edge = p.name == name::edge_growth;
    if (!(in_plane || edge) || !(std::abs(p.value) > (edge ? absurd_edge_mm : absurd_scale))) continue;
    return Problem{Code::unanswerable,
                   {},
                   said("{} comes out as {}, which no printer does", plain_name(p.name),
                        edge ? signed_mm(p.value) : signed_percent(p.value)),
                   tr("look for a slip, inches, or the nominals of another coupon among the readings")};
  }
  const auto why = [&](const char* parameter) { return why_unknown(estimates, parameter); };
  if (options.policy == Policy::machine && !options.travel.contains('x') && !options.travel.contains('y'))
    return Problem{Code::unanswerable,
                   {},
                   tr("the machine policy needs how far the machine really travels, and no travel "
                      "was measured (what belts and pulleys say is no measurement)"),
                   tr("command a move of 100 mm or more on X and on Y, measure it and give --travel "
                      "x=COMMANDED:TRAVELLED,y=COMMANDED:TRAVELLED, or take the shrink policy")};
  if (options.policy == Policy::steps && !d.scale_x.known && !d.scale_y.known)
    return Problem{Code::unanswerable,
                   {},
                   said("the readings do not tell the scale of X or Y: {}", why(name::scale_x)),
                   tr("measure the frame coupon: long and short outsides and slots on both axes")};
  if (!d.shared.known && !d.edge.known && !d.flow)
    return Problem{
        Code::unanswerable,
        {},
        said("the readings tell nothing that a setting could correct; the scale of X and Y: {}; edge growth: {}",
             why(name::scale_x), why(name::edge_growth)),
        tr("measure the frame coupon: long and short outsides and slots on both axes")};
  return std::nullopt;
}

struct KnobAccess {
  const char* knob;
  double& (*of)(State&);
};

/// The knobs a correction may turn, in the order they are told.
constexpr std::array<KnobAccess, 7> knobs{{
    {"size_factor", [](State& s) -> double& { return s.size_factor; }},
    {"steps_per_mm.x", [](State& s) -> double& { return s.steps_per_mm.x; }},
    {"steps_per_mm.y", [](State& s) -> double& { return s.steps_per_mm.y; }},
    {"steps_per_mm.z", [](State& s) -> double& { return s.steps_per_mm.z; }},
    {"flow", [](State& s) -> double& { return s.flow; }},
    {"outline_offset_mm", [](State& s) -> double& { return s.outline_offset_mm; }},
    {"z_offset_mm", [](State& s) -> double& { return s.z_offset_mm; }},
}};

double value_of(const KnobAccess& knob, State state) { return knob.of(state); }

/// Change of an outside length by one knob alone, mm: along its axis, along Z for the knobs of height, else the mean of
/// X and Y.
double effect(const std::string& knob, const State& before, const State& turned, const Errors& errors,
              double length_mm) {
  if (knob == "steps_per_mm.z")
    return length_mm * (1 + errors.scale_z) * (steps_ratio(before.steps_per_mm.z, turned.steps_per_mm.z) - 1);
  if (knob == "z_offset_mm") return turned.z_offset_mm - before.z_offset_mm;
  const PlanarOutcome was = outcome(before, before, errors.fit);
  const PlanarOutcome is = outcome(before, turned, errors.fit);
  const double along_x = length_mm * (is.gain_x - was.gain_x) + 2 * (is.edge_x_mm - was.edge_x_mm);
  const double along_y = length_mm * (is.gain_y - was.gain_y) + 2 * (is.edge_y_mm - was.edge_y_mm);
  if (knob == "steps_per_mm.x") return along_x;
  if (knob == "steps_per_mm.y") return along_y;
  return (along_x + along_y) / 2;
}

void add_changes(Correction& out, const Decision& decision, const UncertainErrors& errors) {
  for (const KnobAccess& knob : knobs) {
    Change change;
    change.knob = knob.knob;
    change.old_value = value_of(knob, out.before);
    change.new_value = value_of(knob, out.after);
    if (change.old_value == change.new_value) continue;
    change.u =
        propagate(errors, [&](const Errors& e) { return value_of(knob, carried_out(decision.plan, out.before, e)); }).u;
    change.established = true;  // the plan holds nothing else
    change.because = decision.because_of(change.knob);
    State turned = out.before;
    knob.of(turned) = change.new_value;
    for (const int length_mm : {20, 100, 200})
      change.effect_mm[length_mm] = effect(change.knob, out.before, turned, errors.value, length_mm);
    out.changes.push_back(std::move(change));
  }
}

void add_left_alone(Correction& out, const Decision& decision) {
  for (const auto& [knob, because] : decision.left_alone) {
    bool turned = false;
    for (const Change& change : out.changes) turned = turned || change.knob == knob;
    if (!turned) out.left_alone.push_back({knob, because});
  }
}

void add_remains(Correction& out, const Decision& decision, const Estimates& estimates, const UncertainErrors& errors,
                 const CorrectOptions& options) {
  if (!decision.edge.known) return;  // no length comes out as foretold without it
  const auto beyond = options.beyond ? *options.beyond : beyond_readings(estimates, {});
  for (const auto& [place, remains] : remaining(out.before, out.after, estimates, errors, beyond)) {
    const bool along_x = place.find('x') != std::string::npos;
    if (along_x ? decision.scale_x.known : decision.scale_y.known) out.remains_mm[place] = remains;
  }
}

}  // namespace

std::string_view word(Policy policy) {
  switch (policy) {
    case Policy::shrink:
      return "shrink";
    case Policy::steps:
      return "steps";
    case Policy::machine:
      return "machine";
    case Policy::shrink_only:
      return "shrink-only";
  }
  return "?";
}

std::optional<Policy> policy_from(std::string_view text) {
  for (const Policy p : {Policy::shrink, Policy::steps, Policy::machine, Policy::shrink_only})
    if (word(p) == text) return p;
  return std::nullopt;
}

Result<Correction> correct(const Estimates& estimates, const State& state, const CorrectOptions& options) {
  if (Problems problems = travel_problems(options.travel); !problems.empty()) return problems;
  const auto flow = flow_evidence(estimates, state, options.block);
  const UncertainErrors errors = gathered(estimates, state, options, flow);
  const Decision decision = decide(estimates, state, options, flow, errors);
  if (auto problem = unanswerable(estimates, options, decision)) return *problem;

  Correction out;
  out.policy = options.policy;
  out.before = state;
  out.after = carried_out(decision.plan, state, errors.value);
  require_corrected_once(decision.plan, out.before, out.after, errors.value);
  const PlanarOutcome lengths = outcome(out.before, out.after, errors.value.fit);
  out.invariant_x = lengths.gain_x;
  out.invariant_y = lengths.gain_y;
  add_changes(out, decision, errors);
  add_left_alone(out, decision);
  add_remains(out, decision, estimates, errors, options);
  out.cautions = cautions_for(out, estimates, options);
  out.commands = commands_for(out);
  return out;
}

}  // namespace fitwright
