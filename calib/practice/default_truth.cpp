#include <string>

#include "base/number.hpp"
#include "practice/simulate.hpp"

namespace fitwright {
namespace {

void add_ladder(Truth& truth, const std::string& prefix, Kind kind, Axis axis, std::initializer_list<double> sizes_mm) {
  for (const double size_mm : sizes_mm)
    truth.features.push_back({prefix + shortest(size_mm), kind, axis, {size_mm}, {}, {}});
}

}  // namespace

// Scatter, edge growth and hole closing of this size are what one hears of desktop printers: common practice, no
// source.
Truth default_truth() {
  Truth t;
  t.scale = {-0.0035, -0.0015, -0.001};
  t.edge_growth_mm = 0.08;
  t.z0_mm = -0.05;
  t.skew_rad = 0.002;
  t.layer_mm = 0.2;
  t.hole_c0_mm = 0.06;
  t.hole_c1_mm2 = 0.15;
  t.holeh_c0_mm = 0.10;
  t.holeh_c1_mm2 = 0.15;
  t.wall_flow = 1.03;
  t.wall_layer_mm = 0.2;
  t.jaw_flat_mm = 0.35;
  t.resolution_mm = 0.01;
  t.sd_feature_mm = 0.03;
  t.sd_feature_copy_mm = 0.02;
  t.sd_copy_edge_mm = 0.010;
  t.sd_copy_scale = 0.0003;
  t.sd_reading_mm = 0.015;
  t.copies = 3;
  t.repeats = 3;
  add_ladder(t, "X", Kind::outer, Axis::x, {10, 20, 40, 80});
  add_ladder(t, "Y", Kind::outer, Axis::y, {10, 20, 40, 80});
  add_ladder(t, "SX", Kind::inner, Axis::x, {10, 20, 40});
  add_ladder(t, "SY", Kind::inner, Axis::y, {10, 20, 40});
  add_ladder(t, "Z", Kind::outer, Axis::z, {5, 10, 20, 40});
  add_ladder(t, "P", Kind::peg, Axis::z, {5, 10, 20});
  add_ladder(t, "H", Kind::hole, Axis::z, {2, 3, 4, 5, 6, 8, 10, 12, 16, 20});
  t.features.push_back({"W1", Kind::wall, Axis::n, {0.45}, {}, {}});
  t.features.push_back({"D1", Kind::diag_plus, Axis::xy, {60, 60}, {}, {}});
  t.features.push_back({"D2", Kind::diag_minus, Axis::xy, {60, 60}, {}, {}});
  return t;
}

}  // namespace fitwright
