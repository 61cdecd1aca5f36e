#pragma once
// Quantiles, chances and degrees of freedom for intervals.

#include <span>

namespace fitwright {

/// Quantile of Student's t: P(T <= result) = p. `df` > 0, not necessarily whole; infinity gives the normal.
/// Here and below: throws std::domain_error for an argument outside its range (a defect in the caller).
double t_quantile(double p, double df);

/// P(|T| >= |t|) for Student's t. NaN for t = NaN.
double t_two_sided_p(double t, double df);

/// Quantile of the standard normal, 0 < p < 1.
double normal_quantile(double p);

/// P(Z <= z) of the standard normal.
double normal_chance(double z);

/// P(F >= f) of Fisher's F with `df1`, `df2` > 0 degrees of freedom; 1 for f <= 0.
double f_upper_p(double f, double df1, double df2);

/// Quantile of chi-squared with `df` > 0 degrees of freedom.
double chi_squared_quantile(double p, double df);

/// P(X >= x) of chi-squared with `df` > 0 degrees of freedom; 1 for x <= 0. NaN for x = NaN.
double chi_squared_upper_p(double x, double df);

/// Half-width factor of a two-sided interval of the given level: t_quantile((1 + level) / 2, df).
double coverage_factor(double level, double df);

/// One contribution to a combined standard uncertainty: u_i(y) = |c_i| u(x_i) in the unit of y, and its degrees of
/// freedom (infinity for a value taken as certain).
struct Contribution {
  double u = 0;
  double df = 0;
};

/// Effective degrees of freedom u_c^4 / sum(u_i^4 / df_i), by Welch-Satterthwaite (JCGM 100:2008, G.4.1, equation
/// G.2b). Contributions with u = 0 do not count; infinity when no counting contribution has finite df.
double welch_satterthwaite_df(std::span<const Contribution> contributions);

/// Combined standard uncertainty of independent contributions: root of the sum of squares (JCGM 100:2008, 5.1.2).
double combined_uncertainty(std::span<const Contribution> contributions);

/// Bonferroni's correction of the p-value of one out of `tests` looked at: min(1, p * tests).
double bonferroni(double p, int tests);

}  // namespace fitwright
