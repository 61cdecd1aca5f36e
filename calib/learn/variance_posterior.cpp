#include "learn/variance_posterior.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace fitwright::learn {
namespace {

constexpr int steps = 2400;
constexpr double step = 1.0 / 40;
constexpr double foldings_below = 25;
/// Nodes below this share of the highest cannot move a 95 % interval in its tenth digit.
constexpr double negligible = 1e-14;
/// Normal quantiles that hold all but 1e-23 of each member of a mixture.
constexpr double far_out = 10;
constexpr double relative_step = 1e-11;
constexpr int most_steps = 200;

}  // namespace

VariancePosterior variance_posterior(const std::function<double(double)>& log_density, double scale) {
  std::vector<double> variance, logs;
  double most = -std::numeric_limits<double>::infinity();
  for (int k = 0; k <= steps; ++k) {
    const double v = scale * std::exp(step * k - foldings_below);
    variance.push_back(v);
    logs.push_back(log_density(v) + std::log(v));  // dV = V d(log V)
    most = std::max(most, logs.back());
  }
  VariancePosterior out;
  double sum = 0;
  for (std::size_t k = 0; k < logs.size(); ++k) {
    const double weight = std::exp(logs[k] - most);
    if (weight < negligible) continue;
    out.variance.push_back(variance[k]);
    out.weight.push_back(weight);
    sum += weight;
  }
  for (double& w : out.weight) w /= sum;
  return out;
}

double mixture_quantile(const VariancePosterior& posterior, const Normals& normals, double p) {
  const std::size_t n = posterior.weight.size();
  double low = std::numeric_limits<double>::infinity(), high = -low, x = 0, spread = 0;
  for (std::size_t k = 0; k < n; ++k) {
    low = std::min(low, normals.mean[k] - far_out * normals.sd[k]);
    high = std::max(high, normals.mean[k] + far_out * normals.sd[k]);
    x += posterior.weight[k] * normals.mean[k];
    spread = std::max(spread, posterior.weight[k] * normals.sd[k]);
  }
  // Newton's steps, with bisection where they leave the bracket.
  for (int k = 0; k < most_steps; ++k) {
    double below = 0, density = 0;
    for (std::size_t i = 0; i < n; ++i) {
      const double t = (x - normals.mean[i]) / normals.sd[i];
      below += posterior.weight[i] * 0.5 * std::erfc(-t / std::numbers::sqrt2);
      density += posterior.weight[i] * std::exp(-0.5 * t * t) / normals.sd[i];
    }
    density /= std::sqrt(2 * std::numbers::pi);
    (below < p ? low : high) = x;
    double next = x - (below - p) / density;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    const double moved = std::abs(next - x);
    x = next;
    if (moved <= relative_step * (std::abs(x) + spread)) break;
  }
  return x;
}

}  // namespace fitwright::learn
