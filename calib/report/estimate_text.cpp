#include <fmt/format.h>

#include "base/number.hpp"
#include "report/estimate_report.hpp"
#include "report/finding_report.hpp"
#include "report/layout.hpp"
#include "report/wording.hpp"

namespace fitwright {
namespace {

std::string count_of(int n, const std::string& one, const std::string& many) {
  return std::to_string(n) + ' ' + (n == 1 ? one : many);
}

std::string heading(const std::string& text) { return '\n' + text + '\n'; }

std::string what_was_read(const Estimates& estimates, const ReadingSet& readings) {
  const Counts& n = estimates.counts;
  std::string text = (readings.source.empty() ? std::string() : readings.source + ": ") +
                     count_of(n.readings, "reading", "readings") + " of " +
                     count_of(n.features, "feature", "features") + " on " + count_of(n.copies, "copy", "copies");
  text += n.set_aside == 0 ? ", none set aside." : ", " + std::to_string(n.set_aside) + " set aside (listed below).";
  return paragraph(text, "", "  ");
}

std::string parameter_table(const std::vector<Parameter>& parameters) {
  std::vector<std::vector<std::string>> rows{{"", "value", "u", "95 % from", "to", "unit", ""}};
  bool prior = false;
  for (const Parameter& p : parameters) {
    const Wording w = wording(p.name);
    const ValueAndU shown = value_and_u(p.value * w.per_unit, p.u * w.per_unit);
    prior = prior || p.prior;
    rows.push_back({w.name + (p.prior ? " *" : ""), shown.value, shown.u, fixed(p.lower * w.per_unit, shown.decimals),
                    fixed(p.upper * w.per_unit, shown.decimals), w.unit,
                    p.established ? "established" : "not established"});
  }
  std::string out =
      columns(rows, {Align::left, Align::right, Align::right, Align::right, Align::right, Align::left, Align::left});
  if (prior) out += paragraph("* a typical value took part: see \"Assumed beforehand\"", "  ", "    ");
  return out + paragraph("u: standard uncertainty; ± in sentences: half of the 95 % interval", "  ", "    ");
}

/// What the intervals above do not hold, in a line or two.
std::string beyond_lines(const Estimates& estimates, const ReadingSet& readings) {
  const std::string effects = beyond_in_words(beyond_readings(estimates, readings));
  if (effects.empty()) return effects;
  return paragraph("These are what the scatter of readings shows. Beyond it, as standard uncertainties: " + effects,
                   "  ", "    ");
}

std::string combination_table(const std::vector<Combination>& combinations) {
  std::vector<std::vector<std::string>> rows{{"", "value", "u", "unit"}};
  for (const Combination& c : combinations) {
    const ValueAndU shown = value_and_u(c.value, c.u);
    rows.push_back({plain_expression(c.expr), shown.value, shown.u, unit_of_expression(c.expr)});
  }
  return columns(rows, {Align::left, Align::right, Align::right, Align::left});
}

std::string inseparable(const std::vector<NotSeparable>& groups) {
  std::string out;
  for (const NotSeparable& group : groups) {
    std::string names;
    for (std::size_t i = 0; i < group.parameters.size(); ++i) {
      if (i > 0) names += i + 1 == group.parameters.size() ? " and " : ", ";
      names += wording(group.parameters[i]).name;
    }
    out += paragraph(names + ": " + group.because, "  ", "    ");
    if (!group.would_need.empty()) out += paragraph("It would need: " + group.would_need, "    ", "    ");
  }
  return out;
}

/// Assumed values need no more digits than they were chosen with.
std::string assumed_value(double value) { return fmt::format("{:.3g}", value); }

std::string assumed(const std::vector<PriorUsed>& priors) {
  std::string out;
  for (const PriorUsed& p : priors) {
    const Wording w = wording(p.parameter);
    const std::string unit = w.unit.empty() ? "" : ' ' + w.unit;
    const std::string sd = assumed_value(p.sd * w.per_unit) + unit;
    const bool is_scatter = w.name.starts_with("scatter of ") || p.parameter.starts_with("copy_");
    const std::string text =
        w.name +
        (is_scatter ? ' ' + sd : " about " + assumed_value(p.mean * w.per_unit) + unit + ", standard deviation " + sd);
    out += paragraph(p.source.empty() ? text : text + ": " + p.source, "  ", "    ");
  }
  return out;
}

std::string scatter_table(const std::map<std::string, double>& scatter) {
  constexpr int scatter_decimals = 4;  // 0.1 µm: a tenth of what a caliper's digit can bear out
  std::vector<std::vector<std::string>> rows;
  for (const auto& [what, sd] : scatter) {
    const Wording w = wording(what);
    rows.push_back({w.name, fixed(sd * w.per_unit, scatter_decimals), w.unit});
  }
  return columns(rows, {Align::left, Align::right, Align::left});
}

std::string suspect_lines(const std::vector<SuspectReading>& suspects, const ReadingSet& readings) {
  std::string out;
  for (const SuspectReading& s : suspects) {
    const int line = readings.rows.at(s.suspect.index).row;
    out += paragraph((line > 0 ? "line " + std::to_string(line) + ": " : "") + suspect_text(s, readings), "  ", "    ");
  }
  return out;
}

std::string reason(Rule rule, const std::string& drawn) {
  switch (rule) {
    case Rule::entry:
      return "is far from the drawn " + drawn;
    case Rule::repeat:
      return "is far from the other readings of this place (drawn " + drawn + ')';
    case Rule::residual:
      return "does not fit what the other places say (drawn " + drawn + ')';
  }
  return "is suspect";
}

}  // namespace

std::string suspect_text(const SuspectReading& s, const ReadingSet& readings) {
  const Reading& r = readings.rows.at(s.suspect.index);
  std::string text = r.feature.id + ", copy " + std::to_string(r.copy) + ", repeat " + std::to_string(r.repeat) + ": " +
                     shortest(r.reading_mm) + ' ' + reason(s.suspect.rule, shortest(r.feature.nominal_mm));
  if (s.suspect.proposal_mm) {
    text += "; perhaps " + shortest(*s.suspect.proposal_mm);
    if (!s.suspect.slip.empty()) text += " (" + s.suspect.slip + ')';
  }
  return text + (s.used ? "; counted all the same" : "; set aside");
}

std::string estimate_text(const Estimates& estimates, const ReadingSet& readings,
                          const std::vector<Finding>& findings) {
  std::string out = what_was_read(estimates, readings);
  if (!findings.empty()) out += heading("What it means") + findings_text(findings);
  if (!estimates.parameters.empty())
    out += heading("Estimates") + parameter_table(estimates.parameters) + beyond_lines(estimates, readings);
  if (!estimates.not_separable.empty()) out += heading("Cannot be told apart") + inseparable(estimates.not_separable);
  if (!estimates.combinations.empty()) out += heading("Known only as sums") + combination_table(estimates.combinations);
  if (!estimates.priors.empty())
    out += heading("Assumed beforehand (--no-priors leaves these out)") + assumed(estimates.priors);
  if (!estimates.suspects.empty()) out += heading("Suspect readings") + suspect_lines(estimates.suspects, readings);
  if (!estimates.scatter.empty()) out += heading("Scatter (standard deviations)") + scatter_table(estimates.scatter);
  out += heading("Method: " + estimates.method);
  return out;
}

}  // namespace fitwright
