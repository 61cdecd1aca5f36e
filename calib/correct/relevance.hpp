#pragma once
// Whether an effect on a part matters to its maker, with its uncertainty taken into account.

namespace fitwright {

enum class Relevance {
  matters,         ///< established, and more than what matters
  may_matter,      ///< its interval reaches beyond what matters on either side: not enough is known
  does_not_matter  ///< all of its interval is within what matters
};

/// An effect in mm with its 95 % interval, against `tolerance_mm`, what matters on the part. The bounds come in either
/// order; one that is not finite is no bound.
Relevance relevance(double value_mm, double lower_mm, double upper_mm, bool established, double tolerance_mm);

}  // namespace fitwright
