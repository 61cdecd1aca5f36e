#include "correct/flow_evidence.hpp"

#include <cmath>
#include <limits>

#include "base/number.hpp"
#include "base/words.hpp"
#include "correct/phrase.hpp"

namespace fitwright {
namespace {

double u_of_ratio(const FlowTest& test) { return test.u / test.flow_new * test.ratio; }

std::string because_walls(const WallFlow& walls) {
  return walls.bead_widths > 1
             ? said("one-bead walls of {} bead widths: zero and ripple cancel in their difference", walls.bead_widths)
             : said(
                   "a one-bead wall drawn {} measures {}, caliper zero and ripple of the faces "
                   "included in the uncertainty",
                   mm(walls.drawn_mm), mm(walls.measured_mm));
}

std::string because_block(const WeighedBlock& block, const State& state) {
  constexpr double mm3_per_cm3 = 1000;
  const double wanted_g = block.sliced_mm3(state) / mm3_per_cm3 * block.density_g_cm3;
  return said(
      "a block of {} g by volume ({} cm3 at {} g/cm3) weighs {} g; as sure as the density of the material, ± {}",
      said_fixed(wanted_g, 2), said_fixed(block.sliced_mm3(state) / mm3_per_cm3, 3), said_shortest(block.density_g_cm3),
      said_fixed(block.mass_g, 2), percent(2 * block.density_u_g_cm3 / block.density_g_cm3));
}

/// Mean of two independent tests of one flow, weighted by their ratios' 1/u^2.
FlowTest together(const FlowTest& a, const FlowTest& b) {
  const double wa = 1 / std::pow(u_of_ratio(a), 2), wb = 1 / std::pow(u_of_ratio(b), 2);
  FlowTest mean;
  mean.ratio = (wa * a.ratio + wb * b.ratio) / (wa + wb);
  mean.flow_new = a.flow_new * a.ratio / mean.ratio;
  mean.u = mean.flow_new / mean.ratio / std::sqrt(wa + wb);
  return mean;
}

}  // namespace

Evidence FlowEvidence::excess() const {
  return {true, test.ratio - 1, u_of_ratio(test), std::numeric_limits<double>::infinity(), test.worth_a_change()};
}

FlowTest flow_by_block(const WeighedBlock& block, const State& state) {
  const double relative =
      std::hypot(block.density_u_g_cm3 / block.density_g_cm3, WeighedBlock::scale_u_g / block.mass_g);
  return flow_from_block(state.flow, block.mass_g, block.sliced_mm3(state), block.density_g_cm3, relative);
}

std::optional<FlowEvidence> flow_evidence(const Estimates& estimates, const State& state,
                                          const std::optional<WeighedBlock>& block) {
  const auto walls = flow_by_walls(estimates, state.flow, state.layer_height_mm);
  if (!walls && !block) return std::nullopt;
  FlowEvidence out;
  if (walls) {
    out.test = walls->test;
    out.holds = tr("the walls hold");
    out.because = because_walls(*walls);
    out.better = walls->bead_widths > 1
                     ? tr("weigh a solid block of 10 g")
                     : tr("add a one-bead wall of another bead width, or weigh a solid block of 10 g");
  }
  if (!block) return out;
  const FlowTest by_weight = flow_by_block(*block, state);
  if (!walls) {
    out.test = by_weight;
    out.holds = tr("the weighed block holds");
    out.because = because_block(*block, state);
    out.better = tr("take the density from the maker's sheet and a scale that shows 0.01 g");
    return out;
  }
  constexpr double clearly = 2;  // standard uncertainties, about 95 %
  const double u = std::hypot(u_of_ratio(walls->test), u_of_ratio(by_weight));
  out.contradicts = std::abs(walls->test.ratio - by_weight.ratio) > clearly * u;
  out.because += "; " + because_block(*block, state);
  out.test = together(walls->test, by_weight);
  out.holds = tr("walls and weighed block together hold");
  out.better.clear();
  if (out.contradicts)
    out.holds = said("the walls say {} and the weighed block says {}, which do not agree; their mean is",
                     signed_percent(walls->test.ratio - 1), signed_percent(by_weight.ratio - 1));
  return out;
}

}  // namespace fitwright
