// Findings on the readings themselves: slips, and too few copies for what is asked of them.
#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"
#include "correct/finding_parts.hpp"
#include "correct/phrase.hpp"
#include "model/copy_prior.hpp"

namespace fitwright {
namespace {

std::string whereabouts(const Reading& r) { return said("{}, copy {}, repeat {}", r.feature.id, r.copy, r.repeat); }

std::string slip_text(const Suspect& s, const Reading& r) {
  const std::string read = said("{} at {}", said_shortest(r.reading_mm), whereabouts(r));
  if (s.proposal_mm)
    return s.slip.empty() ? said("{} looks like {}.", read, said_shortest(*s.proposal_mm))
                          : said("{} looks like {}: {}.", read, said_shortest(*s.proposal_mm), tr(s.slip.c_str()));
  switch (s.rule) {
    case Rule::entry:
      return said("{} is too far from the drawn {} to be a reading of it.", read, length(r.feature.nominal_mm));
    case Rule::repeat:
      return said("{} does not agree with the other readings of the same place.", read);
    case Rule::residual:
      return said("{} does not agree with all the other places; its reading that strays most is {}.", r.feature.id,
                  read);
  }
  return said("{} is suspicious.", read);
}

void slip_findings(const FindingInput& in, Findings& out) {
  constexpr std::size_t told_singly = 5;
  std::size_t count = 0;
  for (const SuspectReading& s : in.estimates.suspects) {
    if (s.suspect.index >= in.readings.rows.size()) continue;
    if (++count > told_singly) continue;
    const Reading& r = in.readings.rows[s.suspect.index];
    const std::string row = r.row > 0 ? said("line {}", r.row) + "; " : std::string();
    out.push_back({"slip", Severity::act, slip_text(s.suspect, r),
                   row + (s.used ? tr("it still counts in the estimates") : tr("it is set aside and does not count")),
                   tr("take the part, read that place again, and correct or keep the reading")});
  }
  if (count > told_singly)
    out.push_back(
        {"slip", Severity::act,
         said_many("{} more readings are suspicious.", "{} more readings are suspicious.", count - told_singly),
         tr("so many slips at once point to a wrong unit, a wrong column or a caliper that jumps"),
         tr("look through the list of suspect readings")});
}

/// What is assumed of the copies that were not made: typical values, this printer's own, or nothing.
std::string one_copy_text(const FindingInput& in) {
  const auto sd_of = [&](const char* parameter) -> const PriorUsed* {
    for (const PriorUsed& p : in.estimates.priors)
      if (p.parameter == parameter) return &p;
    return nullptr;
  };
  const PriorUsed* edge = sd_of("copy_edge_mm");
  const PriorUsed* scale = sd_of("copy_scale");
  if (!edge || !scale)
    return tr(
        "One copy cannot show how much copies differ, and nothing is assumed of it: the uncertainties leave it out.");
  const bool typical = edge->source == CopyPrior{}.source;
  return filled(typical ? tr("One copy cannot show how much copies differ; typical values are assumed: {} mm in edge "
                             "growth, {} on {} in scale.")
                        : tr("One copy cannot show how much copies differ; what this printer's earlier copies show is "
                             "assumed: {} mm in edge growth, {} on {} in scale."),
                said_fixed(edge->sd, 3), mm(in.on_length(scale->sd)), length(in.options.length_mm));
}

void few_finding(const FindingInput& in, Findings& out) {
  const Estimates& e = in.estimates;
  const bool lengths = e.find(name::scale_x) || e.find(name::scale_y) || e.find(name::edge_growth);
  if (!lengths) return;
  if (e.counts.copies == 1) {
    out.push_back(
        {"few", Severity::know, one_copy_text(in), rests_on(e), tr("print a second copy, turned by 90 degrees")});
    return;
  }
  constexpr double too_few_df = 3;
  for (const std::string parameter : {name::scale_x, name::scale_y, name::edge_growth}) {
    const Evidence p = in.of(parameter.c_str());
    const double effect = parameter == name::edge_growth ? 2 * p.half_width() : in.on_length(p.half_width());
    if (!p.known || p.df >= too_few_df || !in.matters(effect)) continue;
    out.push_back({"few", Severity::know,
                   parameter == name::edge_growth
                       ? said("These copies are too few to say how much copies differ: the intervals stay wide, {} on "
                              "outsides.",
                              mm(effect))
                       : said("These copies are too few to say how much copies differ: the intervals stay wide, {} on "
                              "{}.",
                              mm(effect), length(in.options.length_mm)),
                   said("{}, {} degrees of freedom", rests_on(e), said_fixed(p.df, 1)),
                   tr("print one more copy; reading these again does not help")});
    return;
  }
}

}  // namespace

void data_findings(const FindingInput& in, Findings& out) {
  slip_findings(in, out);
  few_finding(in, out);
}

}  // namespace fitwright
