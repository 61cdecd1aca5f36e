#pragma once
// What data say of one unknown variance, as a posterior on a grid, and what it predicts. With few data a single
// estimate of a variance, often zero, makes intervals far too short; averaging over what it may be does not.

#include <functional>
#include <vector>

namespace fitwright::learn {

/// Values of the variance with weights that sum to 1.
struct VariancePosterior {
  std::vector<double> variance;
  std::vector<double> weight;
};

/// The posterior of a variance V > 0 from the logarithm of its density (prior times likelihood, up to a constant) by V.
/// `scale` > 0 is of its order: the grid runs over sixty e-foldings about it, in steps of 1/40, by the trapezoid in
/// log V. Densities must be smooth in log V and fall off before the grid ends.
VariancePosterior variance_posterior(const std::function<double(double)>& log_density, double scale);

/// One normal distribution for each variance of the posterior.
struct Normals {
  std::vector<double> mean;
  std::vector<double> sd;  ///< > 0
};

/// Quantile of the mixture of `normals` with the posterior's weights: P(X <= result) = p, 0 < p < 1.
double mixture_quantile(const VariancePosterior& posterior, const Normals& normals, double p);

}  // namespace fitwright::learn
