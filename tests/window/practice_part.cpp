#include "window/practice_part.hpp"

#include <stdexcept>

#include "correct/algebra.hpp"
#include "practice/simulate.hpp"
#include "practice/true_feature.hpp"

namespace window_test {

using namespace fitwright;

namespace {

constexpr int repeats_at_most = 8;

}  // namespace

PracticePart::PracticePart(const Coupon& coupon, std::vector<int> turned_deg, const State& usual, const State& now,
                           std::uint64_t seed) {
  Truth truth = default_truth();
  const PlanarOutcome out = outcome(usual, now, {truth.scale.x, truth.scale.y, truth.edge_growth_mm});
  truth.scale.x = out.gain_x - 1;
  truth.scale.y = out.gain_y - 1;
  truth.edge_growth_mm = out.edge_mm;
  truth.typo_rate = 0;
  truth.copies = static_cast<int>(turned_deg.size());
  truth.turned_deg = std::move(turned_deg);
  truth.repeats = repeats_at_most;
  truth.features.clear();
  TrueFeature jaws;
  jaws.id = "Z0";
  jaws.kind = Kind::zero;
  jaws.axis = Axis::n;
  jaws.lengths_mm = {0};
  truth.features.push_back(jaws);
  for (const Feature& f : coupon.features) truth.features.push_back(true_feature(f));
  readings_ = simulate(truth, seed);
}

double PracticePart::shown_mm(const ReadingKey& key) const {
  for (const Reading& r : readings_.rows)
    if (key_of(r) == key) return r.reading_mm;
  throw std::logic_error("the practice part has no " + key.feature_id);
}

}  // namespace window_test
