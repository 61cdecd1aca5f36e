#pragma once
// Chances of the grades for a clearance law: the closed form.

#include "fits/clearance_law.hpp"

namespace fitwright {

/// P(grade <= k) = mean over the posterior's draws and over the variance's possible values V of
/// Phi((t_k + shift - c) / sqrt(feel^2 + V)), feel and printed places by the ladder's s. The variance known with df
/// degrees of freedom is V df / chi-squared(df), averaged over equally likely values.
class ChanceForm {
 public:
  ChanceForm(const Thresholds& thresholds, const ClearanceLaw& law);
  [[nodiscard]] std::array<double, grade_count> at(double clearance_mm) const;
  [[nodiscard]] double of(Grade grade, double clearance_mm) const;

 private:
  struct Term {
    std::array<double, threshold_count> t_mm;
    double over_sd, weight;
  };
  std::vector<Term> terms_;
  [[nodiscard]] double at_most(int k, double clearance_mm) const;
};

}  // namespace fitwright
