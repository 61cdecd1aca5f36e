#pragma once
// Tolerance intervals of a normal distribution: limits that hold a share of all parts with a confidence.

namespace fitwright {

/// Factor k so that mean +- k s of `n` values (s with `df` degrees of freedom) holds at least the share `content` of
/// all, with the chance `confidence`. Exact, by quadrature over the mean:
///   confidence = E_z [ P( chi2_df >= df r(z)^2 / k^2 ) ],  Phi(z / sqrt n + r) - Phi(z / sqrt n - r) = content
/// (Odeh & Owen, Tables for normal tolerance limits, 1980; ISO 16269-6:2014, annex). Throws std::domain_error outside
/// n >= 1, df > 0, shares within (0, 1).
double tolerance_factor(double n, double df, double content, double confidence);

}  // namespace fitwright
