#pragma once
// Linear least squares with the diagnostics that tell a wrong reading from a right one.

#include <Eigen/Core>

#include "base/result.hpp"

namespace fitwright {

/// The working precision of the factorisation: 64 bits of mantissa on x86, so that designs with a condition number
/// of 1e10 after column scaling still leave nine digits.
using ExtendedMatrix = Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic>;
using ExtendedVector = Eigen::Matrix<long double, Eigen::Dynamic, 1>;

/// A column counts as a combination of the others when what is left of it after removing them is below this share of
/// the largest such rest (columns first scaled to unit length). Data typed in double carry rounding of 1e-16, so a
/// dependence meant to be exact leaves about 1e-15; the hardest certified set (Filip, degree 10) leaves 1e-10.
inline constexpr double least_squares_rank_tolerance = 1e-13;

/// What R squared is measured against.
enum class RSquared {
  automatic,   ///< about the mean when the columns can express a constant, about zero otherwise
  about_mean,  ///< 1 - RSS / sum w (y - ybar)^2
  about_zero,  ///< 1 - RSS / sum w y^2
};

struct LeastSquaresOptions {
  Eigen::VectorXd weights;  ///< one per row, > 0, proportional to 1/variance; empty: all equal to 1
  double rank_tolerance = least_squares_rank_tolerance;
  RSquared r_squared = RSquared::automatic;
};

/// A fit y = X b + e of n rows and p columns; with weights w, Var(e_i) = residual_sd^2 / w_i.
/// "Studentised" quantities are NaN where they have no meaning: no degree of freedom left, or a row with leverage 1.
struct LeastSquares {
  Eigen::VectorXd coefficients;         ///< b, p
  Eigen::MatrixXd unscaled_covariance;  ///< (X'WX)^-1, p x p; times residual_sd^2 it is the covariance of b
  Eigen::VectorXd standard_errors;      ///< of b, p; NaN when df is 0
  Eigen::VectorXd fitted;               ///< X b, n
  Eigen::VectorXd residuals;            ///< y - X b, n (not multiplied by the weights)
  double residual_sum_of_squares = 0;   ///< sum w (y - X b)^2
  double total_sum_of_squares = 0;      ///< sum w (y - centre)^2, centre as r_squared says
  double residual_sd = 0;               ///< sqrt(RSS / df); NaN when df is 0
  double r_squared = 0;
  int df = 0;                              ///< n - p
  int rank = 0;                            ///< p: a fit of lower rank is not given
  bool has_constant = false;               ///< the columns can express a constant
  Eigen::VectorXd leverage;                ///< h, diagonal of the hat matrix, n
  Eigen::VectorXd internally_studentised;  ///< sqrt(w) e / (s sqrt(1-h))
  Eigen::VectorXd externally_studentised;  ///< the same with s of the fit without that row: t with df - 1
  Eigen::VectorXd cooks_distance;          ///< t_int^2 h / (p (1-h))
  Eigen::VectorXd dffits;                  ///< t_ext sqrt(h / (1-h))
};

/// Fits by column-scaled, column-pivoted Householder QR in extended precision with one step of refinement.
/// `design` is n x p, `response` has n entries. Memory and time are of order n p and n p^2; no n x n matrix is formed.
/// Errors: Code::unanswerable when there are fewer independent columns than p (fewer rows than columns included);
/// Code::bad_input for a value that is not finite or a weight that is not above zero, with the row.
/// Throws std::invalid_argument when the sizes do not match (a defect in the caller).
/// Source: Golub & Van Loan, Matrix Computations, 5.3; Cook & Weisberg, Residuals and Influence in Regression (1982).
Result<LeastSquares> least_squares(const ExtendedMatrix& design, const ExtendedVector& response,
                                   const LeastSquaresOptions& options = {});
Result<LeastSquares> least_squares(const Eigen::MatrixXd& design, const Eigen::VectorXd& response,
                                   const LeastSquaresOptions& options = {});

}  // namespace fitwright
