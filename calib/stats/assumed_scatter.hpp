#pragma once
// Intervals for an estimate part of whose variance was assumed, not estimated from its own data.

namespace fitwright {

/// An estimate's variance in two independent parts.
struct TwoPartVariance {
  double estimated = 0;     ///< variance estimated from the readings
  double estimated_df = 0;  ///< its degrees of freedom (infinity allowed)
  double assumed = 0;       ///< variance assumed: its true value is assumed * df / chi-squared(df)
  double assumed_df = 0;    ///< > 0, finite
};

/// Half-width of the two-sided interval of the given level.
///
/// Welch and Satterthwaite's formula holds when both parts are estimated; a part that is assumed with few degrees of
/// freedom has Student's long tails of its own, and the formula then gives intervals shorter than the assumed part
/// alone needs. Here the chance of |error| <= h is averaged over the assumed part's true variance (a scaled inverse
/// chi-squared), by generalised Gauss-Laguerre quadrature, with Satterthwaite's degrees of freedom within; h is found
/// by bisection. Limits: assumed = 0 gives Student's interval with estimated_df; estimated = 0 Student's with
/// assumed_df (checked in the tests to 1e-6). Throws std::domain_error for a negative variance or df <= 0.
double two_part_half_width(const TwoPartVariance& variance, double level);

}  // namespace fitwright
