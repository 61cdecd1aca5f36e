#include "correct/finding.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/words.hpp"
#include "correct/finding_parts.hpp"
#include "correct/phrase.hpp"

namespace fitwright {
namespace {

/// What comes first among findings of one severity: what is quick to mend while the part is in the hand, then what
/// spoils most.
constexpr std::array<std::string_view, 25> order{"slip",         "warm",       "caliper-capability",
                                                 "zero",         "one-length", "edge-growth",
                                                 "axes-differ",  "scale-axis", "theory",
                                                 "axes-agree",   "holes",      "hole-law",
                                                 "pegs",         "skew",       "flow",
                                                 "double",       "height",     "first-layers",
                                                 "scale-likely", "few",        "copies-differ",
                                                 "seam",         "jaws",       "facets",
                                                 "done"};

std::size_t rank(const Finding& f) {
  return static_cast<std::size_t>(std::find(order.begin(), order.end(), f.id) - order.begin());
}

}  // namespace

std::string_view word(Severity severity) {
  switch (severity) {
    case Severity::act:
      return "act";
    case Severity::know:
      return "know";
    case Severity::fine:
      return "fine";
  }
  return "?";
}

bool FindingInput::matters(double effect_mm) const { return std::abs(effect_mm) > options.tolerance_mm; }

Evidence weighted_sum(const Estimates& estimates, const std::vector<Weight>& weights) {
  Contrast told;  // parameters that were not estimated take no part
  for (const Weight& w : weights)
    if (estimates.find(w.parameter)) told[w.parameter] += w.weight;
  return told.empty() ? Evidence{} : evidence(estimates, told);
}

void done_finding(const FindingInput& in, Findings& out) {
  for (const Finding& f : out)
    if (f.severity == Severity::act) return;
  double worst = 0;
  for (const char* scale : {name::scale_x, name::scale_y}) {
    if (!in.of(scale).known || !in.of(name::edge_growth).known) return;
    const Evidence outside = weighted_sum(in.estimates, {{scale, in.options.length_mm}, {name::edge_growth, 2}});
    worst = std::max(worst, std::abs(outside.value) + outside.half_width());
  }
  if (in.matters(worst)) return;
  out.push_back(
      {"done", Severity::fine,
       said("This setup is good to ± {} up to {}: stop calibrating.", mm(worst), length(in.options.length_mm)),
       said("the worst of X and Y, error and its uncertainty together, against ± {}; {}", mm(in.options.tolerance_mm),
            rests_on(in.estimates)),
       tr("go and print")});
}

std::vector<Finding> findings(const Estimates& estimates, const ReadingSet& readings, const FindingOptions& options) {
  const FindingInput in{estimates, readings, options};
  Findings out;
  for (const auto part : {scale_findings, edge_findings, shape_findings, round_findings, hole_law_findings,
                          caliper_findings, warm_finding, data_findings, scatter_findings, done_finding})
    part(in, out);
  std::stable_sort(out.begin(), out.end(), [](const Finding& a, const Finding& b) {
    if (a.severity != b.severity) return a.severity < b.severity;
    return rank(a) < rank(b);
  });
  return out;
}

}  // namespace fitwright
