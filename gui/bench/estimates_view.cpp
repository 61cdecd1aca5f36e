#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <utility>

#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/bench_view.hpp"
#include "bench/shown.hpp"
#include "correct/relevance.hpp"
#include "report/wording.hpp"

namespace fitwright {
namespace {

/// mm on an outside length of the user's part (or on the size it acts on) per unit of the parameter; 0 = no single one.
double effect_per_unit(const std::string& parameter, double length_mm) {
  if (parameter == name::scale_x || parameter == name::scale_y || parameter == name::scale_z ||
      parameter == name::skew_xy)
    return length_mm;
  if (parameter == name::edge_growth || parameter == name::flare) return 2;  // both edges of an outside length
  if (parameter == name::z0) return 1;
  if (parameter == name::hole_c0 || parameter == name::peg_p0 || parameter == name::holeh_c0) return -1;
  return 0;
}

std::string relevance_words(Relevance relevance) {
  switch (relevance) {
    case Relevance::matters:
      return tr("matters");
    case Relevance::may_matter:
      return tr("may matter");
    case Relevance::does_not_matter:
      return tr("does not matter");
  }
  return {};
}

EstimateRow row_of(const Parameter& p, double length_mm, double tolerance_mm) {
  const Wording w = wording(p.name);
  const ValueAndU parts = value_and_u(p.value * w.per_unit, p.u * w.per_unit);
  EstimateRow row;
  row.name = capitalised(w.name);
  row.value = shown_signed(p.value * w.per_unit, parts.decimals);
  row.half = shown((p.upper - p.lower) / 2 * w.per_unit, parts.decimals);
  row.u = parts.u;
  row.unit = w.unit;
  row.standing = p.established ? "" : p.prior ? tr("assumed") : tr("not yet");
  const double effect = effect_per_unit(p.name, length_mm);
  if (effect != 0) {
    EffectBar bar{p.lower * effect, p.value * effect, p.upper * effect};
    if (bar.lower_mm > bar.upper_mm) std::swap(bar.lower_mm, bar.upper_mm);
    row.effect = shown_signed(bar.value_mm, 2);
    row.on_part = bar;
    row.relevance = relevance_words(relevance(bar.value_mm, bar.lower_mm, bar.upper_mm, p.established, tolerance_mm));
  }
  return row;
}

/// "0.060, u 0.040": a value that was taken beforehand, with its standard uncertainty.
std::string standard(double mean, double sd) {
  const ValueAndU parts = value_and_u(mean, sd);
  return parts.u.empty() ? parts.value : parts.value + ", u " + parts.u;
}

std::string list_of(const std::vector<std::string>& parameters) {
  std::string text;
  for (std::size_t i = 0; i < parameters.size(); ++i) {
    if (i > 0) text += i + 1 == parameters.size() ? tr(" and ") : ", ";
    text += wording(parameters[i]).name;
  }
  return capitalised(text);
}

}  // namespace

EstimatesView estimates_view(const Content& content, const Analysis& analysis) {
  EstimatesView view;
  const double length_mm = content.wishes.length_mm;
  view.tolerance_mm = content.wishes.tolerance_mm;
  view.effect_title = said("on {} mm", shown_exact(length_mm));
  view.bar_title = tr("grey: does not matter");
  if (!analysis.estimates) return view;
  const Estimates& e = *analysis.estimates;
  view.heading =
      said("{} of {} on {}", said_many("{} reading", "{} readings", static_cast<std::size_t>(e.counts.readings)),
           said_many("{} feature", "{} features", static_cast<std::size_t>(e.counts.features)),
           said_many("{} copy", "{} copies", static_cast<std::size_t>(e.counts.copies)));
  if (e.counts.set_aside > 0) view.heading += ", " + said("{} set aside", e.counts.set_aside);
  view.method = e.method;
  view.bar_reach_mm = 2 * view.tolerance_mm;
  for (const Parameter& p : e.parameters) {
    view.rows.push_back(row_of(p, length_mm, view.tolerance_mm));
    if (const auto& bar = view.rows.back().on_part)
      view.bar_reach_mm = std::max({view.bar_reach_mm, std::abs(bar->lower_mm), std::abs(bar->upper_mm)});
  }
  for (const Combination& c : e.combinations)
    view.combinations.push_back(capitalised(plain_expression(c.expr)) + ": " + typeset(plus_minus(c.value, c.u)) + " " +
                                unit_of_expression(c.expr));
  for (const NotSeparable& n : e.not_separable)
    view.not_separable.push_back(list_of(n.parameters) + ": " + n.because +
                                 (n.would_need.empty() ? "" : ". " + said("It would need {}", n.would_need)));
  for (const PriorUsed& p : e.priors) {
    const Wording w = wording(p.parameter);
    view.assumed.push_back(typeset(capitalised(w.name) + ": " + standard(p.mean * w.per_unit, p.sd * w.per_unit) + " " +
                                   w.unit + ", " + tr(p.source.c_str())));
  }
  if (const std::string effects = beyond_in_words(analysis.beyond); !effects.empty()) {
    view.beyond.push_back(
        typeset(said("The intervals above are what the scatter of readings shows. Beyond it, as standard "
                     "uncertainties: {}.",
                     effects)));
    std::vector<std::string> told;
    for (const BeyondReadings& effect : analysis.beyond)
      if (std::find(told.begin(), told.end(), effect.cause) == told.end()) {
        told.push_back(effect.cause);
        view.beyond.push_back(typeset(said("{}: {}.", capitalised(effect.cause), effect.action)));
      }
  }
  return view;
}

namespace {

/// The design of ours whose features tell these parameters apart; empty where the caliper itself has to be read.
std::string coupon_for(const std::vector<std::string>& parameters) {
  const auto any = [&](std::initializer_list<const char*> wanted) {
    return std::any_of(wanted.begin(), wanted.end(), [&](const char* p) {
      return std::find(parameters.begin(), parameters.end(), p) != parameters.end();
    });
  };
  if (any({name::scale_x, name::scale_y, name::skew_xy})) return "frame";
  if (any({name::caliper_zero, name::inside_bias})) return {};
  if (any({name::scale_z, name::z0, name::flare})) return "stair";
  if (any({name::hole_c0, name::hole_c1, name::peg_p0, name::peg_p1})) return "bores";
  if (any({name::edge_growth})) return "frame";
  return any({name::wall}) ? "walls" : "";
}

}  // namespace

std::vector<LabelledText> not_known(const Analysis& analysis) {
  std::vector<LabelledText> out;
  if (!analysis.estimates) return out;
  for (const NotSeparable& n : analysis.estimates->not_separable) {
    std::string text = capitalised(n.because) + ".";
    if (!n.would_need.empty()) text = said("{} It would need {}.", text, n.would_need);
    if (const std::string design = coupon_for(n.parameters); !design.empty())
      text = said("{} The coupon that tells: {}.", text, tr(design.c_str()));
    out.push_back({list_of(n.parameters), typeset(text)});
  }
  return out;
}

}  // namespace fitwright
