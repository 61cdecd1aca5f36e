#pragma once
// The NIST StRD linear regression sets: the fits that are asked for and how many digits of them agree.
// Source: NIST Statistical Reference Datasets, linear regression (https://www.itl.nist.gov/div898/strd/).

#include <string>
#include <vector>

#include "stats/least_squares.hpp"

namespace fitwright::reference {

struct StrdSet {
  std::string name;
  int degree = 0;  ///< of the polynomial in x; 0: the columns x1..x6 as they stand
  bool intercept = true;
};

const std::vector<StrdSet>& strd_linear_sets();

/// Fits the set. `rounded_to_double`: its columns are rounded to double first; else the decimals, and the powers of
/// them, keep 64 bits. Throws std::runtime_error when the fit is refused.
LeastSquares fit_of(const StrdSet& set, bool rounded_to_double);

/// Log relative errors against the certified values: the least of all coefficients, and so on.
struct StrdDigits {
  double coefficients = 99, standard_errors = 99, residual_sd = 99, r_squared = 99, residual_ss = 99;
};
StrdDigits digits_of(const StrdSet& set, const LeastSquares& fit);

}  // namespace fitwright::reference
