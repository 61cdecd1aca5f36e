#pragma once
// The practice printer: readings of coupons from a known truth, the same for the same truth and seed in any language.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "reading/reading.hpp"

namespace fitwright {

struct AxisValues {
  double x = 0, y = 0, z = 0;
};

/// A feature in a truth: nominal and, for diagonals (side a, side b) and flats (width, side a, side b), more lengths.
struct TrueFeature {
  std::string id;
  Kind kind = Kind::outer;
  Axis axis = Axis::x;
  std::vector<double> lengths_mm;
  std::string edge_a, edge_b;  ///< named faces: with both, the feature effect is the sum of its edges' effects
};

/// What the practice printer and caliper really do (defaults: default_truth()).
struct Truth {
  AxisValues scale;                       ///< s_a, machine and material together
  std::optional<AxisValues> machine;      ///< m_a; with shrink, replaces scale: (1+m)(1-k)-1
  std::optional<double> shrink_xy, shrink_z;
  double edge_growth_mm = 0, z0_mm = 0, skew_rad = 0, layer_mm = 0.2;
  double hole_c0_mm = 0, hole_c1_mm2 = 0, facets_chord_mm = 0;
  double holeh_c0_mm = 0, holeh_c1_mm2 = 0;
  double peg_p0_mm = 0, peg_p1_mm2 = 0, flare_mm = 0, pin_step_mm = 0.1;
  double wall_flow = 1.03, wall_layer_mm = 0.2;
  double caliper_zero_mm = 0, caliper_scale = 0, inside_bias_mm = 0, jaw_flat_mm = 0, resolution_mm = 0.01;
  double sd_feature_mm = 0, sd_feature_copy_mm = 0, sd_copy_edge_mm = 0, sd_copy_scale = 0, sd_reading_mm = 0;
  double typo_rate = 0;
  int copies = 3, repeats = 3;
  std::vector<int> turned_deg;            ///< per copy, cycled; empty: all 0 and no such column
  std::vector<TrueFeature> features;
};

Truth default_truth();

/// Reads a truth from JSON text, merged over default_truth(); "default" as text gives that. Errors: Code::bad_input.
Result<Truth> parse_truth(const std::string& json, const std::string& source);

/// The readings. Rows by feature, copy, repeat. Never fails for a parsed truth.
ReadingSet simulate(const Truth& truth, std::uint64_t seed);

/// The CSV text that docs/formats.md gives for simulated readings, byte-identical for equal truth and seed.
std::string simulate_csv(const Truth& truth, std::uint64_t seed);

/// Uniform in (0,1) and standard normal of the stream keyed by (seed, label): SplitMix64 keyed by FNV-1a 64; Box-Muller.
double stream_uniform(std::uint64_t seed, const std::string& label);
double stream_normal(std::uint64_t seed, const std::string& label);

}  // namespace fitwright
