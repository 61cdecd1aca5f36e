#pragma once
// What cannot be told apart, in words, and the sums that can.

#include <Eigen/Core>
#include <vector>

#include "model/estimates.hpp"
#include "model/staged.hpp"

namespace fitwright {

/// Terms in the order in which they are reported.
const std::vector<Term>& reported_terms();

/// One entry per group of `structure`: members by name, why, and what would separate them.
std::vector<NotSeparable> not_separable(const Structure& structure);

/// The sums of the members of each group of `structure` that single readings show (the equations of `rows` cut down to
/// the members), independent ones only, with their values at `values` and uncertainty from `covariance`
/// (term_count x term_count). Sums with a nuisance that is not reported are left out.
std::vector<Combination> combinations(const Structure& structure, const Rows& rows, const Values& values,
                                      const Eigen::MatrixXd& covariance);

}  // namespace fitwright
