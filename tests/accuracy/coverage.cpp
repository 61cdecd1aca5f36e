#include "accuracy/coverage.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

#include "accuracy/optimum.hpp"
#include "accuracy/parallel.hpp"
#include "base/number.hpp"
#include "model/estimate.hpp"
#include "stats/intervals.hpp"

namespace fitwright::accuracy {
namespace {

constexpr double level = 0.95;

struct Seen {
  double truth = 0;
  Best best, best_of_all;
  bool estimated = false;
  double value = 0, lower = 0, upper = 0;
};

struct SeenRun {
  std::vector<std::string> order;
  std::map<std::string, Seen> parameters;
  std::string method;
};

SeenRun see(const Scenario& scenario, int run) {
  const Run r = make_run(scenario, run);
  const auto estimates = estimate(r.readings);
  if (!estimates) throw std::runtime_error(text_of(scenario) + ": " + estimates.problems()[0].text());
  const auto best = optimum(r.truth, r.without_slips), of_all = optimum(r.truth, r.without_slips, true);
  const auto truth = true_values(r.truth);
  SeenRun out;
  out.method = estimates->method;
  for (const auto& [name, b] : best) {
    if (!truth.contains(name)) continue;  // a nuisance
    Seen& s = out.parameters[name];
    s.truth = truth.at(name);
    s.best = b;
    s.best_of_all = of_all.at(name);
  }
  for (const Parameter& p : estimates->parameters) {
    const auto found = out.parameters.find(p.name);
    if (found == out.parameters.end()) throw std::logic_error("no optimum for " + p.name);
    out.order.push_back(p.name);
    Seen& s = found->second;
    s.estimated = true;
    s.value = p.value;
    s.lower = p.lower;
    s.upper = p.upper;
  }
  return out;
}

double median(std::vector<double> v) {
  if (v.empty()) return 0;
  const auto middle = v.begin() + static_cast<std::ptrdiff_t>(v.size() / 2);
  std::nth_element(v.begin(), middle, v.end());
  return *middle;
}

/// Root of the ratio of two means of squares over the same runs, and its standard uncertainty (delta method).
struct Ratio {
  double value = 0, u = 0, top = 0, bottom = 0;
};
Ratio root_ratio(const std::vector<double>& squares, const std::vector<double>& of) {
  const auto n = static_cast<double>(squares.size());
  double top = 0, bottom = 0, spread = 0;
  for (std::size_t i = 0; i < squares.size(); ++i) {
    top += squares[i] / n;
    bottom += of[i] / n;
  }
  const double ratio = top / bottom;
  for (std::size_t i = 0; i < squares.size(); ++i) spread += std::pow((squares[i] - ratio * of[i]) / bottom, 2);
  return {std::sqrt(ratio), std::sqrt(spread) / n / (2 * std::sqrt(ratio)), top, bottom};
}

Tally tally_of(const std::string& parameter, const std::vector<SeenRun>& runs) {
  Tally t;
  t.parameter = parameter;
  const double k = normal_quantile((1 + level) / 2);
  std::vector<double> halves, ratios, costs, shares, squares, best_squares;
  double hits = 0, best_hits = 0;
  for (const SeenRun& run : runs) {
    const auto found = run.parameters.find(parameter);
    if (found == run.parameters.end()) continue;
    const Seen& s = found->second;
    if (!s.estimated) {
      ++t.missing;
      continue;
    }
    ++t.runs;
    hits += s.lower <= s.truth && s.truth <= s.upper ? 1 : 0;
    best_hits += std::abs(s.best.error) <= k * s.best.u ? 1 : 0;
    const double half = (s.upper - s.lower) / 2;
    halves.push_back(half);
    ratios.push_back(half / (k * s.best.u));
    costs.push_back(s.best.u / s.best_of_all.u);
    shares.push_back(s.best.by_prior);
    squares.push_back(std::pow((s.value - s.truth) / s.best.u, 2));
    best_squares.push_back(std::pow(s.best.error / s.best.u, 2));
    t.joint_square += std::pow(s.best_of_all.error / s.best.u, 2);
  }
  if (t.runs == 0) return t;
  t.joint_square /= t.runs;
  t.coverage = hits / t.runs;
  t.best_coverage = best_hits / t.runs;
  t.half_width = median(halves);
  t.width_ratio = median(ratios);
  const Ratio rmse = root_ratio(squares, best_squares);
  t.rmse_ratio = rmse.value;
  t.rmse_ratio_u = rmse.u;
  t.square = rmse.top;
  t.best_square = rmse.bottom;
  t.by_prior = median(shares);
  t.rule_cost = median(costs);
  return t;
}

}  // namespace

double margin_of_95(int runs) { return normal_quantile((1 + level) / 2) * std::sqrt(level * (1 - level) / runs); }

std::string text_of(const Scenario& s) {
  const char* truths = s.truths == Truths::fixed   ? "fixed truth"
                       : s.truths == Truths::drawn ? "drawn truths"
                                                   : "drawn truths and copy scatter";
  return std::string(s.places == Places::list ? "list" : "coupons") + ", " + s.lay.name + ", " + truths +
         (s.steel ? ", steel read" : ", no steel") +
         (s.typo_rate > 0 ? ", " + shortest(s.typo_rate * 100) + " % slips" : "");
}

Coverage coverage_of(const Scenario& scenario, int runs, int threads) {
  const auto seen = in_parallel(runs, threads, [&](int run) { return see(scenario, run); });
  Coverage out{scenario, runs, {}, seen.at(0).method};
  std::vector<std::string> order;
  for (const SeenRun& run : seen)
    for (const std::string& name : run.order)
      if (std::find(order.begin(), order.end(), name) == order.end()) order.push_back(name);
  for (const std::string& name : order) out.tallies.push_back(tally_of(name, seen));
  return out;
}

}  // namespace fitwright::accuracy
