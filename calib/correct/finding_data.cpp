// Findings on the readings themselves: slips, and too few copies for what is asked of them.
#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "correct/finding_parts.hpp"
#include "correct/phrase.hpp"
#include "model/copy_prior.hpp"

namespace fitwright {
namespace {

std::string whereabouts(const Reading& r) {
  return r.feature.id + ", copy " + std::to_string(r.copy) + ", repeat " + std::to_string(r.repeat);
}

std::string slip_text(const Suspect& s, const Reading& r) {
  const std::string read = shortest(r.reading_mm) + " at " + whereabouts(r);
  if (s.proposal_mm)
    return read + " looks like " + shortest(*s.proposal_mm) + (s.slip.empty() ? "." : ": " + s.slip + ".");
  switch (s.rule) {
    case Rule::entry:
      return read + " is too far from the drawn " + length(r.feature.nominal_mm) + " to be a reading of it.";
    case Rule::repeat:
      return read + " does not agree with the other readings of the same place.";
    case Rule::residual:
      return r.feature.id + " does not agree with all the other places; its reading that strays most is " + read + ".";
  }
  return read + " is suspicious.";
}

void slip_findings(const FindingInput& in, Findings& out) {
  constexpr std::size_t told_singly = 5;
  std::size_t count = 0;
  for (const SuspectReading& s : in.estimates.suspects) {
    if (s.suspect.index >= in.readings.rows.size()) continue;
    if (++count > told_singly) continue;
    const Reading& r = in.readings.rows[s.suspect.index];
    const std::string row = r.row > 0 ? "line " + std::to_string(r.row) + "; " : std::string();
    out.push_back({"slip", Severity::act, slip_text(s.suspect, r),
                   row + (s.used ? "it still counts in the estimates" : "it is set aside and does not count"),
                   "take the part, read that place again, and correct or keep the reading"});
  }
  if (count > told_singly)
    out.push_back({"slip", Severity::act, std::to_string(count - told_singly) + " more readings are suspicious.",
                   "so many slips at once point to a wrong unit, a wrong column or a caliper that jumps",
                   "look through the list of suspect readings"});
}

/// What is assumed of the copies that were not made: typical values, this printer's own, or nothing.
std::string one_copy_text(const FindingInput& in) {
  const std::string cannot = "One copy cannot show how much copies differ";
  const auto sd_of = [&](const char* parameter) -> const PriorUsed* {
    for (const PriorUsed& p : in.estimates.priors)
      if (p.parameter == parameter) return &p;
    return nullptr;
  };
  const PriorUsed* edge = sd_of("copy_edge_mm");
  const PriorUsed* scale = sd_of("copy_scale");
  if (!edge || !scale) return cannot + ", and nothing is assumed of it: the uncertainties leave it out.";
  const bool typical = edge->source == CopyPrior{}.source;
  return cannot + "; " +
         (typical ? "typical values are assumed: " : "what this printer's earlier copies show is assumed: ") +
         fixed(edge->sd, 3) + " mm in edge growth, " + mm(in.on_length(scale->sd)) + " on " +
         length(in.options.length_mm) + " in scale.";
}

void few_finding(const FindingInput& in, Findings& out) {
  const Estimates& e = in.estimates;
  const bool lengths = e.find(name::scale_x) || e.find(name::scale_y) || e.find(name::edge_growth);
  if (!lengths) return;
  if (e.counts.copies == 1) {
    out.push_back({"few", Severity::know, one_copy_text(in), rests_on(e), "print a second copy, turned by 90 degrees"});
    return;
  }
  constexpr double too_few_df = 3;
  for (const std::string parameter : {name::scale_x, name::scale_y, name::edge_growth}) {
    const Evidence p = in.of(parameter.c_str());
    const double effect = parameter == name::edge_growth ? 2 * p.half_width() : in.on_length(p.half_width());
    if (!p.known || p.df >= too_few_df || !in.matters(effect)) continue;
    out.push_back({"few", Severity::know,
                   "These copies are too few to say how much copies differ: the intervals stay wide, " + mm(effect) +
                       (parameter == name::edge_growth ? " on outsides." : " on " + length(in.options.length_mm) + "."),
                   rests_on(e) + ", " + fixed(p.df, 1) + " degrees of freedom",
                   "print one more copy; reading these again does not help"});
    return;
  }
}

}  // namespace

void data_findings(const FindingInput& in, Findings& out) {
  slip_findings(in, out);
  few_finding(in, out);
}

}  // namespace fitwright
