#include "accuracy/pooled.hpp"

#include <algorithm>
#include <cmath>

namespace fitwright::accuracy {
namespace {

struct Squares {
  double top = 0, bottom = 0;
  void add(const Tally& t) {
    top += t.square * t.runs;
    bottom += t.best_square * t.runs;
  }
  [[nodiscard]] double ratio() const { return bottom > 0 ? std::sqrt(top / bottom) : 0; }
};

struct Sum {
  Pooled pooled;
  Squares clean, slips;
};

bool belongs(const Sum& sum, const Scenario& s, const std::string& parameter) {
  const Scenario& of = sum.pooled.scenario;
  return of.places == s.places && of.lay.name == s.lay.name && sum.pooled.parameter == parameter;
}

}  // namespace

std::vector<Pooled> pooled(const std::vector<Coverage>& coverage) {
  std::vector<Sum> sums;
  for (const Coverage& c : coverage) {
    if (c.scenario.truths != Truths::drawn) continue;
    for (const Tally& t : c.tallies) {
      auto found =
          std::find_if(sums.begin(), sums.end(), [&](const Sum& s) { return belongs(s, c.scenario, t.parameter); });
      if (found == sums.end()) {
        sums.push_back({});
        found = std::prev(sums.end());
        found->pooled.scenario = c.scenario;
        found->pooled.parameter = t.parameter;
      }
      found->pooled.runs += t.runs;
      found->pooled.coverage += t.coverage * t.runs;
      (c.scenario.typo_rate > 0 ? found->slips : found->clean).add(t);
    }
  }
  std::vector<Pooled> out;
  for (Sum& s : sums) {
    if (s.pooled.runs == 0) continue;
    s.pooled.coverage /= s.pooled.runs;
    s.pooled.rmse_clean = s.clean.ratio();
    s.pooled.rmse_slips = s.slips.ratio();
    out.push_back(s.pooled);
  }
  return out;
}

}  // namespace fitwright::accuracy
