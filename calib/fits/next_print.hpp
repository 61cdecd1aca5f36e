#pragma once
// What to print next: the gain in the half-width of a wanted clearance per gram.
//
//   var after = a'Sa - (a'S x')(V + x S x')^-1 (x S a),  gain = 1.96 (sd now - sd after) / grams
// a: what the clearance is of the parameters; S: their covariance now, weak priors in it; x, V: equations and scatter
// of the candidate's places (docs/mathematics.md, next print).

#include <Eigen/Core>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "fits/allowance.hpp"
#include "reading/feature.hpp"

namespace fitwright {

/// Variance of a'theta after observing rows `x` (n x p) with covariance `noise` (n x n).
double variance_after(const Eigen::MatrixXd& covariance, const Eigen::VectorXd& contrast, const Eigen::MatrixXd& x,
                      const Eigen::MatrixXd& noise);

/// 1.96 (sd now - sd then) / grams, mm per gram.
double gain_per_gram(double variance_now, double variance_then, double grams);

/// Something that could be printed and read.
struct PrintCandidate {
  std::string name;  ///< "bores", or "peg P8 alone"
  double grams = 0;  ///< > 0
  std::vector<Feature> features;
};

struct PrintGain {
  std::string name;
  double grams = 0;
  double sd_after_mm = 0;
  double half_width_after_mm = 0;
  double gain_mm_per_g = 0;
  bool floor_reached = false;  ///< after it, printing more would not help
};

struct NextPrint {
  double sd_now_mm = 0;          ///< of the mean clearance, from what was read
  double half_width_now_mm = 0;  ///< 95 %
  double new_part_sd_mm = 0;     ///< scatter of a new pair, that no coupon removes
  std::vector<PrintGain> gains;  ///< best first
  bool stop = false;             ///< sd_now is below a third of new_part_sd: printing more will not help
  std::string text;              ///< the answer in a sentence or two
};

/// `request`: the clearance that is wanted ("hole 8 sliding"). Errors: as allowance() for wrong numbers.
Result<NextPrint> next_print(const Estimates& estimates, const AllowanceRequest& request,
                             const std::vector<PrintCandidate>& candidates);

}  // namespace fitwright
