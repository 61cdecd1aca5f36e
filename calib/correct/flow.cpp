#include "correct/flow.hpp"

#include <cmath>
#include <numbers>

namespace fitwright {
namespace {

constexpr double worth_factor = 2;  // coverage factor below which a flow difference is left alone (about 95 %)

FlowTest from_ratio(double flow, double ratio, double u_ratio) {
  FlowTest test;
  test.ratio = ratio;
  test.flow_new = flow / ratio;
  test.u = std::abs(test.flow_new / ratio) * u_ratio;
  return test;
}

}  // namespace

double bead_side_loss_mm(double layer_height_mm) { return layer_height_mm * (1 - std::numbers::pi / 4); }

double bead_area_mm2(double width_mm, double layer_height_mm) {
  return layer_height_mm * (width_mm - bead_side_loss_mm(layer_height_mm));
}

double wall_width_mm(double drawn_mm, double layer_height_mm, double ratio) {
  const double k = bead_side_loss_mm(layer_height_mm);
  return k + ratio * (drawn_mm - k);
}

bool FlowTest::worth_a_change() const {
  const double flow = flow_new * ratio;
  return std::abs(flow_new / flow - 1) > worth_factor * u / flow;
}

FlowTest flow_from_wall(double flow, double drawn_mm, double measured_mm, double u_measured_mm,
                        double layer_height_mm) {
  const double k = bead_side_loss_mm(layer_height_mm);
  return from_ratio(flow, (measured_mm - k) / (drawn_mm - k), u_measured_mm / (drawn_mm - k));
}

FlowTest flow_from_two_walls(double flow, const WallWidth& first, const WallWidth& second) {
  const double drawn = second.drawn_mm - first.drawn_mm;
  return from_ratio(flow, (second.measured_mm - first.measured_mm) / drawn,
                    std::hypot(first.u_mm, second.u_mm) / std::abs(drawn));
}

FlowTest flow_from_block(double flow, double mass_g, double volume_mm3, double density_g_cm3, double u_relative) {
  constexpr double mm3_per_cm3 = 1000;
  const double ratio = mass_g / (volume_mm3 / mm3_per_cm3 * density_g_cm3);
  return from_ratio(flow, ratio, ratio * u_relative);
}

double EdgeGain::u_mm() const { return (most_mm - least_mm) / std::sqrt(12.0); }

double WeighedBlock::sliced_mm3(const State& state) const {
  const double along = state.size_factor + (side_mm > 0 ? 2 * state.outline_offset_mm / side_mm : 0);
  return volume_mm3 * along * along;
}

EdgeGain edge_gain(double bead_width_mm, double layer_height_mm) {
  const double free_width = bead_width_mm - bead_side_loss_mm(layer_height_mm);
  return {free_width / 2, free_width};
}

}  // namespace fitwright
