#pragma once
// What a set of measurements can tell apart, and what it can only tell as a sum.

#include <Eigen/Core>
#include <vector>

namespace fitwright {

/// A direction counts as invisible when its singular value is below this share of the largest (columns first scaled
/// to unit length). Designs hold nominal lengths of at most six digits beside small whole numbers: a dependence meant
/// to be exact leaves 1e-15, while a direction seen with 1e-6 already has a standard error a million times that of
/// the best one. Any limit between gives the same answer; this is the middle.
inline constexpr double separability_tolerance = 1e-9;

/// Rank of a design of n rows and p columns (one column per parameter), in the units of the parameters.
struct Separability {
  int rank = 0;
  double condition = 0;         ///< largest over smallest counted singular value of the scaled columns; 0 for rank 0
  Eigen::MatrixXd null_space;   ///< p x (p - rank): each column changes no reading; reduced echelon form, whole numbers
                                ///< where that is possible, first entry above zero. No other null vector has fewer
                                ///< parameters among those of one column.
  std::vector<bool> estimable;  ///< by parameter: its own value can be estimated
  std::vector<std::vector<int>> groups;  ///< parameters that cannot be told apart from one another, ascending; a
                                         ///< parameter that no reading depends on is a group of its own
};

/// Rank, null space and groups of `design`. Throws std::invalid_argument for a value that is not finite or a design
/// without columns (defects in the caller); a design without rows has rank 0.
Separability separability(const Eigen::MatrixXd& design, double tolerance = separability_tolerance);

/// A basis of the estimable linear combinations of the members of `groups[group]` alone (vectors of length p, empty
/// for a parameter no reading depends on): as few parameters in each as possible, small whole numbers where possible
/// (columns 2 and 1 give 2 e + o), first coefficient above zero.
std::vector<Eigen::VectorXd> estimable_combinations(const Separability& separability, std::size_t group);

/// Whether the linear combination `contrast` (length p) of the parameters can be estimated.
bool is_estimable(const Separability& separability, const Eigen::VectorXd& contrast);

}  // namespace fitwright
