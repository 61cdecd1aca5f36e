#include "correct/relevance.hpp"

#include <algorithm>
#include <cmath>

namespace fitwright {

Relevance relevance(double value_mm, double lower_mm, double upper_mm, bool established, double tolerance_mm) {
  if (established && std::abs(value_mm) > tolerance_mm) return Relevance::matters;
  const double farthest = std::max(std::abs(lower_mm), std::abs(upper_mm));
  return farthest <= tolerance_mm ? Relevance::does_not_matter : Relevance::may_matter;  // NaN: may
}

}  // namespace fitwright
