// The two-stratum estimator against worked cases computed elsewhere (numpy and plain loops, six digits and more).

#include "model/strata.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>

#include "model/priors.hpp"
#include "stats/intervals.hpp"

using namespace fitwright;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

/// Four outsides and three slots along one axis, three copies: deviations of the cell means from nominal.
const double nominal[7] = {10, 20, 40, 80, 10, 20, 40};
const double outside[7] = {1, 1, 1, 1, -1, -1, -1};
const double cell[7][3] = {{10.13, 10.1, 10.16}, {20.08, 20.05, 20.14}, {40.03, 39.99, 40.05}, {79.85, 79.8, 79.93},
                           {9.84, 9.88, 9.81},   {19.79, 19.83, 19.76}, {39.73, 39.75, 39.69}};

struct Answer {
  VectorXd b, se, half;
  TwoStratumResult two;
};

/// Parameters scale, edge growth, zero from the first `copies` copies.
Answer solve(Index copies, bool moderated) {
  MatrixXd x(7, 3), y(7, copies);
  VectorXd edge(7), scale(7);
  for (Index i = 0; i < 7; ++i) {
    x.row(i) << nominal[i], 2 * outside[i], 1;
    edge[i] = 2 * outside[i];
    scale[i] = nominal[i];
    for (Index c = 0; c < copies; ++c) y(i, c) = cell[i][c] - nominal[i];
  }
  const MatrixXd a = (x.transpose() * x).inverse() * x.transpose();
  const VectorXd mean = y.rowwise().mean();
  Answer out;
  out.b = a * mean;
  Stratum s;
  s.rows = {0, 1, 2, 3, 4, 5, 6};
  s.df = 4;
  s.variance_mm2 = (mean - x * out.b).squaredNorm() / 4;
  if (copies > 1) {
    const MatrixXd r = y - x * (a * y);
    s.interaction_df = 4 * static_cast<double>(copies - 1);
    s.interaction_mm2 = (r.colwise() - r.rowwise().mean()).squaredNorm() / s.interaction_df;
  }
  TwoStratumInput in{a, y, {s}, edge, scale, {}, std::nullopt};
  if (moderated) in.prior = CopyPrior{prior::copy_edge_sd_mm, prior::copy_scale_sd, prior::copy_df};
  out.two = two_stratum(in);
  out.se = (out.two.feature + out.two.copy).diagonal().cwiseSqrt();
  out.half = out.se;
  for (Index i = 0; i < 3; ++i) out.half[i] *= coverage_factor(0.95, std::max(1.0, out.two.df[i]));
  return out;
}

void check(const VectorXd& got, const std::vector<double>& wanted) {
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    INFO("entry " << i);
    CHECK_THAT(got[static_cast<Index>(i)], Catch::WithinRel(wanted[i], 1e-6) || Catch::WithinAbs(wanted[i], 1e-12));
  }
}

}  // namespace

TEST_CASE("two strata: three copies without a prior") {
  const Answer a = solve(3, false);
  check(a.b, {-0.0038528678, 0.07343724, 0.023441397});
  check(a.two.feature.diagonal(), {1.0174066e-08, 1.3671401e-06, 1.4370868e-05});
  check(a.two.copy.diagonal(), {3.8018006e-08, 0.00010129615, 0.0});
  check(a.se, {0.00021952693, 0.01013229, 0.0037908928});
  check(a.two.df, {1.710106, 1.9840452, 4.0});
  check(a.half, {0.0011158721, 0.043933408, 0.010525206});
}

TEST_CASE("two strata: two copies, moderated") {
  const Answer a = solve(2, true);
  check(a.b, {-0.004053616, 0.064460723, 0.026839152});
  check(a.two.feature.diagonal(), {3.5596794e-08, 4.7833191e-06, 5.0280471e-05});
  check(a.two.copy.diagonal(), {1.501458e-07, 0.00010344079, 3.4206488e-06});
  check(a.se, {0.00043097864, 0.010403082, 0.0073281048});
  check(a.two.df, {7.1495306, 5.4585225, 4.5459321});
  check(a.half, {0.0010147976, 0.026080238, 0.019417745});
}

TEST_CASE("two strata: one copy leans on the prior alone") {
  const Answer a = solve(1, true);
  check(a.b, {-0.003872818, 0.072674564, 0.022381546});
  check(a.two.feature.diagonal(), {4.6454935e-08, 6.2423819e-06, 6.5617596e-05});
  check(a.two.copy.diagonal(), {3.6e-07, 0.000225, 0.0});
  check(a.se, {0.00063753818, 0.015206656, 0.0081004689});
  check(a.two.df, {5.0154234, 4.2217806, 4.0});
  check(a.half, {0.0016373294, 0.041359953, 0.022490507});
}
