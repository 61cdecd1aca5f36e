#pragma once
// The groups of findings, one file each, and what they share.

#include <optional>
#include <string>
#include <vector>

#include "correct/algebra.hpp"
#include "correct/evidence.hpp"
#include "correct/finding.hpp"

namespace fitwright {

struct FindingInput {
  const Estimates& estimates;
  const ReadingSet& readings;
  const FindingOptions& options;

  [[nodiscard]] Evidence of(const char* parameter) const { return evidence(estimates, parameter); }
  /// Whether an effect on the user's length is above the user's tolerance.
  [[nodiscard]] bool matters(double effect_mm) const;
  /// A relative error as an effect on the user's length, mm.
  [[nodiscard]] double on_length(double scale) const { return scale * options.length_mm; }
  /// Settings the coupon was printed with, or the defaults.
  [[nodiscard]] State state() const { return options.state.value_or(State{}); }
};

using Findings = std::vector<Finding>;

void scale_findings(const FindingInput& in, Findings& out);     ///< scale-*, axes-*, one-length, theory
void edge_findings(const FindingInput& in, Findings& out);      ///< edge-growth, double, flow
void shape_findings(const FindingInput& in, Findings& out);     ///< first-layers, height, skew
void round_findings(const FindingInput& in, Findings& out);     ///< holes, pegs, facets
void hole_law_findings(const FindingInput& in, Findings& out);  ///< hole-law
void caliper_findings(const FindingInput& in, Findings& out);   ///< zero, jaws, caliper-capability
void warm_finding(const FindingInput& in, Findings& out);       ///< warm
void data_findings(const FindingInput& in, Findings& out);      ///< slip, few
void scatter_findings(const FindingInput& in, Findings& out);   ///< seam, copies-differ
/// done: needs to know what the others found.
void done_finding(const FindingInput& in, Findings& out);

/// A weighted sum of estimates: value, standard uncertainty by the full covariance, degrees of freedom of the parts.
/// Parameters that are not estimated count as 0. Not known when none is.
struct Weight {
  const char* parameter;
  double weight;
};
Evidence weighted_sum(const Estimates& estimates, const std::vector<Weight>& weights);

}  // namespace fitwright
