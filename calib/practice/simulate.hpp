#pragma once
// The practice printer: readings of coupons from a known truth, the same for the same truth and seed in any language.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "reading/reading.hpp"

namespace fitwright {

struct AxisValues {
  double x = 0, y = 0, z = 0;
};

/// A feature in a truth. `lengths_mm`: the nominal; for diagonals {side a, side b}, for flats {width, side a, side b}.
struct TrueFeature {
  std::string id;
  Kind kind = Kind::outer;
  Axis axis = Axis::x;
  std::vector<double> lengths_mm;
  std::string edge_a, edge_b;  ///< named faces; see shares_edges
};

/// What the practice printer and caliper really do (defaults: default_truth()).
struct Truth {
  AxisValues scale;                   ///< s_a, machine and material together
  std::optional<AxisValues> machine;  ///< m_a; with shrink, replaces scale: (1+m)(1-k)-1
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
  std::vector<int> turned_deg;    ///< per copy, cycled; empty: all 0 and no such column
  bool complete_columns = false;  ///< see simulate_csv
  std::vector<TrueFeature> features;
};

/// Whether the feature effect of `feature` is made of the effects of its two named faces, delta ~ N(0, sd_feature^2/2)
/// each: an outer or foot gets delta_a + delta_b, an inner -(delta_a + delta_b). Features that share a face share its
/// delta. Every other feature has an effect of its own ~ N(0, sd_feature^2).
bool shares_edges(const TrueFeature& feature);

/// The feature as a reader of the readings needs it: nominal to six significant digits, sides of diagonals and flats.
Feature drawn_feature(const TrueFeature& feature);

Truth default_truth();

/// Reads a truth from JSON text (docs/formats.md), merged over default_truth(); "default" as text gives that.
/// Errors: Code::bad_input, all defects at once, with line and column.
Result<Truth> parse_truth(const std::string& json, const std::string& source);

/// The readings, rounded as the caliper shows them. Rows by feature, copy, repeat; never fails for a parsed truth.
/// Equal to what parse_readings makes of simulate_csv when `complete_columns` is set.
ReadingSet simulate(const Truth& truth, std::uint64_t seed);

/// The readings as CSV text (docs/formats.md), byte-identical for equal truth and seed: the required columns,
/// turned_deg if the truth turns copies, edge_a and edge_b if a feature names them. With `complete_columns`, or with
/// named edges, also those of side_a_mm, side_b_mm and step_mm that a reader would otherwise assume wrongly (a
/// rectangle that is not a square; shanks in other steps than 0.1 mm).
std::string simulate_csv(const Truth& truth, std::uint64_t seed);

/// Whether simulate_csv leaves out something a reader would then assume wrongly (see there).
bool csv_is_incomplete(const Truth& truth);

}  // namespace fitwright
