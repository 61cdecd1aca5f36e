#include "fits/ladder_posterior.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "stats/intervals.hpp"

namespace fitwright {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr int k_count = threshold_count;
constexpr int at_log_s = threshold_count;

/// Parameters of the ordinal model, theta_k = t_k / s and b = 1 / s.
VectorXd natural(const ThresholdDraw& d) {
  VectorXd out(ladder_parameters);
  for (int k = 0; k < k_count; ++k) out[k] = d.t_mm[static_cast<std::size_t>(k)] / d.s_mm;
  out[at_log_s] = 1 / d.s_mm;
  return out;
}

/// One squared deviation of the prior: (value - mean)^2 / sd^2 / 2, by the gradient of the value.
struct Penalty {
  double value = 0;
  LadderVector gradient = LadderVector::Zero();
  LadderMatrix hessian = LadderMatrix::Zero();
  void add(double off, double sd, const LadderVector& slope, const LadderMatrix& bend) {
    const double w = 1 / (sd * sd);
    value += 0.5 * off * off * w;
    gradient += off * w * slope;
    hessian += w * (slope * slope.transpose() + off * bend);
  }
};

Penalty penalty(const LadderVector& free) {
  const ThresholdDraw d = thresholds_at(free);
  Penalty p;
  const LadderMatrix flat = LadderMatrix::Zero();
  for (int k = 0; k < k_count; ++k) {
    LadderVector slope = LadderVector::Zero();
    LadderMatrix bend = LadderMatrix::Zero();
    slope[0] = 1;
    for (int j = 1; j <= k; ++j) slope[j] = bend(j, j) = std::exp(free[j]);
    p.add(d.t_mm[static_cast<std::size_t>(k)] - ladder_prior::t_mean_mm, ladder_prior::t_sd_mm, slope, bend);
  }
  for (int j = 1; j < k_count; ++j)
    p.add(free[j] - std::log(ladder_prior::gap_median_mm), ladder_prior::gap_log_sd, LadderVector::Unit(j), flat);
  p.add(free[at_log_s] - std::log(ladder_prior::s_median_mm), ladder_prior::s_log_sd, LadderVector::Unit(at_log_s),
        flat);
  return p;
}

/// Midpoints between the grades, put in order.
LadderVector start_of(const OrdinalData& data) {
  constexpr double least_gap_mm = 0.02;
  ThresholdDraw d;
  d.s_mm = ladder_prior::s_median_mm;
  for (int k = 0; k < k_count; ++k) {
    double most_below = -1e9, least_above = 1e9;
    for (Eigen::Index i = 0; i < data.x.rows(); ++i) {
      const double c = data.x(i, 0);
      if (data.category[static_cast<std::size_t>(i)] <= k)
        most_below = std::max(most_below, c);
      else
        least_above = std::min(least_above, c);
    }
    double t = 0;
    if (most_below > -1e8 && least_above < 1e8)
      t = 0.5 * (most_below + least_above);
    else if (most_below > -1e8)
      t = most_below + ladder_prior::s_median_mm;
    else
      t = least_above - ladder_prior::s_median_mm;
    if (k > 0) t = std::max(t, d.t_mm[static_cast<std::size_t>(k - 1)] + least_gap_mm);
    d.t_mm[static_cast<std::size_t>(k)] = t;
  }
  return free_of(d);
}

// --- evenly spread points of a multivariate t distribution

constexpr int point_count = 4096;
constexpr int draw_count = 1024;
/// Degrees of freedom of the proposal: tails longer than those of the posterior, which end like a normal's.
constexpr double proposal_df = 5;

/// Points of the additive recurrence with the generalised golden ratio (Roberts' R-sequence: x_n = n / g^i mod 1 with
/// g^(d+1) = g + 1), turned into a t distribution; and log of its density without constants.
struct TPoints {
  std::vector<LadderVector> z;
  std::vector<double> log_density;
};

const TPoints& t_points() {
  static const TPoints points = [] {
    constexpr int dimensions = ladder_parameters + 1;
    double g = 1.1;
    for (int i = 0; i < 60; ++i) g = std::pow(1 + g, 1.0 / (dimensions + 1));
    TPoints out;
    for (int n = 1; n <= point_count; ++n) {
      LadderVector z;
      double u = 0, power = 1;
      for (int i = 0; i < dimensions; ++i) {
        power /= g;
        u = std::fmod(0.5 + n * power, 1.0);
        if (i < ladder_parameters) z[i] = normal_quantile(u);
      }
      z /= std::sqrt(chi_squared_quantile(u, proposal_df) / proposal_df);
      out.log_density.push_back(-0.5 * (proposal_df + ladder_parameters) * std::log1p(z.squaredNorm() / proposal_df));
      out.z.push_back(z);
    }
    return out;
  }();
  return points;
}

double value_of(const ThresholdDraw& d, int which) {
  return which == at_log_s ? d.s_mm : d.t_mm[static_cast<std::size_t>(which)];
}

}  // namespace

OrdinalData ladder_data(const TrialSet& trials, ClearanceUsed used) {
  std::map<std::pair<double, int>, double> seen;
  for (const FitTrial& t : trials.rows) {
    const double c =
        used == ClearanceUsed::measured ? t.measured_clearance_mm.value_or(t.clearance_mm) : t.clearance_mm;
    seen[{c, static_cast<int>(t.grade)}] += 1;
  }
  OrdinalData data;
  data.categories = grade_count;
  const auto n = static_cast<Eigen::Index>(seen.size());
  data.x.resize(n, 1);
  data.weight.resize(n);
  Eigen::Index i = 0;
  for (const auto& [what, times] : seen) {
    data.x(i, 0) = what.first;
    data.weight[i++] = times;
    data.category.push_back(what.second);
  }
  return data;
}

ThresholdDraw thresholds_at(const LadderVector& free) {
  ThresholdDraw d;
  d.t_mm[0] = free[0];
  for (std::size_t k = 1; k < d.t_mm.size(); ++k) d.t_mm[k] = d.t_mm[k - 1] + std::exp(free[static_cast<int>(k)]);
  d.s_mm = std::exp(free[at_log_s]);
  return d;
}

LadderVector free_of(const ThresholdDraw& d) {
  LadderVector free;
  free[0] = d.t_mm[0];
  for (std::size_t k = 1; k < d.t_mm.size(); ++k) free[static_cast<int>(k)] = std::log(d.t_mm[k] - d.t_mm[k - 1]);
  free[at_log_s] = std::log(d.s_mm);
  return free;
}

LadderPoint ladder_at(const OrdinalData& data, const LadderVector& free) {
  const ThresholdDraw d = thresholds_at(free);
  const OrdinalPoint point = ordinal_at(data, Link::probit, natural(d));
  // Chain rule from (theta, b) to the free parameters.
  LadderMatrix jacobian = LadderMatrix::Zero();
  LadderMatrix bend = LadderMatrix::Zero();
  const double over_s = 1 / d.s_mm;
  for (int k = 0; k < k_count; ++k) {
    const double g = point.gradient[k];
    const double theta = d.t_mm[static_cast<std::size_t>(k)] * over_s;
    jacobian(k, 0) = over_s;
    jacobian(k, at_log_s) = -theta;
    bend(0, at_log_s) -= g * over_s;
    bend(at_log_s, at_log_s) += g * theta;
    for (int j = 1; j <= k; ++j) {
      const double gap = std::exp(free[j]) * over_s;
      jacobian(k, j) = gap;
      bend(j, j) += g * gap;
      bend(j, at_log_s) -= g * gap;
    }
  }
  jacobian(at_log_s, at_log_s) = -over_s;
  bend(at_log_s, at_log_s) += point.gradient[at_log_s] * over_s;
  for (int j = 0; j < at_log_s; ++j) bend(at_log_s, j) = bend(j, at_log_s);

  const Penalty p = penalty(free);
  LadderPoint out;
  out.neg_log_likelihood = -point.log_likelihood;
  out.value = out.neg_log_likelihood + p.value;
  out.gradient = -jacobian.transpose() * point.gradient + p.gradient;
  out.hessian = -(jacobian.transpose() * point.hessian * jacobian + bend) + p.hessian;
  return out;
}

double ladder_value(const OrdinalData& data, const LadderVector& free) {
  const ThresholdDraw d = thresholds_at(free);
  double log_likelihood = 0;
  for (Eigen::Index i = 0; i < data.x.rows(); ++i) {
    const int y = data.category[static_cast<std::size_t>(i)];
    const double c = data.x(i, 0);
    const double upper = y < k_count ? (d.t_mm[static_cast<std::size_t>(y)] - c) / d.s_mm : 0;
    const double lower = y > 0 ? (d.t_mm[static_cast<std::size_t>(y - 1)] - c) / d.s_mm : 0;
    double log_p = 0;
    if (y == 0) {
      log_p = log_normal_chance(upper);
    } else if (y == k_count) {
      log_p = log_normal_chance(-lower);
    } else {
      // The tail in which the difference keeps its digits.
      const bool flip = lower > 0;
      const double big = log_normal_chance(flip ? -lower : upper), small = log_normal_chance(flip ? -upper : lower);
      const double gap = small - big;
      log_p = big + (gap > -0.6931471805599453 ? std::log(-std::expm1(gap)) : std::log1p(-std::exp(gap)));
    }
    log_likelihood += data.weight[i] * log_p;
  }
  double squares = 0;
  for (const double t : d.t_mm) squares += std::pow((t - ladder_prior::t_mean_mm) / ladder_prior::t_sd_mm, 2);
  for (int j = 1; j < k_count; ++j)
    squares += std::pow((free[j] - std::log(ladder_prior::gap_median_mm)) / ladder_prior::gap_log_sd, 2);
  squares += std::pow((free[at_log_s] - std::log(ladder_prior::s_median_mm)) / ladder_prior::s_log_sd, 2);
  return -log_likelihood + 0.5 * squares;
}

LadderMatrix prior_curvature(const LadderVector& free) { return penalty(free).hessian; }

LadderVector ladder_maximum(const OrdinalData& data) {
  constexpr int most_steps = 200;
  constexpr double reached = 1e-24;   // of Newton's decrement
  constexpr double longest_step = 1;  // in any free parameter: a threshold in mm, logs of gaps and scatter
  LadderVector free = start_of(data);
  LadderPoint here = ladder_at(data, free);
  double damping = 0;
  for (int step = 0; step < most_steps; ++step) {
    LadderMatrix h = here.hessian;
    h.diagonal() += damping * (h.diagonal().cwiseAbs() + LadderVector::Ones());
    const Eigen::LLT<LadderMatrix> llt(h);
    if (llt.info() != Eigen::Success) {
      damping = std::max(2 * damping, 1e-3);
      continue;
    }
    LadderVector move = -llt.solve(here.gradient);
    const double decrement = -move.dot(here.gradient);
    const double longest = move.cwiseAbs().maxCoeff();
    if (longest > longest_step) move *= longest_step / longest;
    const LadderPoint next = ladder_at(data, free + move);
    if (std::isfinite(next.value) && next.value <= here.value + 1e-13 * std::abs(here.value)) {
      free += move;
      here = next;
      damping = damping < 1e-6 ? 0 : damping / 10;
      if (decrement < reached && damping == 0) break;
    } else {
      damping = std::max(4 * damping, 1e-3);
      if (damping > 1e12) break;
    }
  }
  return free;
}

LadderSample sample_ladder(const OrdinalData& data, const LadderVector& maximum) {
  const LadderPoint top = ladder_at(data, maximum);
  LadderMatrix spread = LadderMatrix::Identity();
  const Eigen::LLT<LadderMatrix> information(top.hessian);
  information.matrixU().solveInPlace(spread);  // spread spread' = inverse of the curvature

  const TPoints& points = t_points();
  std::vector<double> log_weight(point_count);
  std::vector<ThresholdDraw> all(point_count);
  for (int n = 0; n < point_count; ++n) {
    const auto i = static_cast<std::size_t>(n);
    const LadderVector free = maximum + spread * points.z[i];
    all[i] = thresholds_at(free);
    const double value = ladder_value(data, free);
    log_weight[i] = std::isfinite(value) ? top.value - value - points.log_density[i] : -1e300;
  }
  const double greatest = *std::max_element(log_weight.begin(), log_weight.end());
  double sum = 0, squares = 0;
  for (std::size_t i = 0; i < all.size(); ++i) sum += all[i].weight = std::exp(log_weight[i] - greatest);
  for (ThresholdDraw& d : all) {
    d.weight /= sum;
    squares += d.weight * d.weight;
  }

  LadderSample out;
  out.effective = 1 / squares;
  std::vector<std::size_t> order(all.size());
  for (int which = 0; which < ladder_parameters; ++which) {
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return value_of(all[a], which) < value_of(all[b], which); });
    const auto point = [&](double p) {
      double below = 0;
      for (std::size_t n = 0; n < order.size(); ++n) {
        const double w = all[order[n]].weight;
        if (below + w >= p) {
          if (n == 0 || w <= 0) return value_of(all[order[n]], which);
          const double a = value_of(all[order[n - 1]], which), b = value_of(all[order[n]], which);
          return a + (b - a) * (p - below) / w;
        }
        below += w;
      }
      return value_of(all[order.back()], which);
    };
    out.lower[static_cast<std::size_t>(which)] = point(0.025);
    out.upper[static_cast<std::size_t>(which)] = point(0.975);
  }
  // Systematic resampling along t_1: each draw stands for an equal share.
  double below = 0;
  std::size_t next = 0;
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return all[a].t_mm[1] < all[b].t_mm[1]; });
  for (const std::size_t i : order) {
    below += all[i].weight;
    while (next < draw_count && (static_cast<double>(next) + 0.5) / draw_count <= below) {
      out.draws.push_back(all[i]);
      out.draws.back().weight = 1.0 / draw_count;
      ++next;
    }
  }
  while (out.draws.size() < draw_count) {
    out.draws.push_back(all[order.back()]);
    out.draws.back().weight = 1.0 / draw_count;
  }
  return out;
}

}  // namespace fitwright
