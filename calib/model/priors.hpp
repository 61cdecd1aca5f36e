#pragma once
// The weak priors and assumed scatters of the error model: what is taken for granted where readings are silent.
//
// All are type B judgements (JCGM 100:2008, 4.3) for desktop filament printers read with a 0.01 mm caliper; common
// practice, no source. Each one that takes part in an estimate is listed in Estimates::priors.

namespace fitwright::prior {

struct Normal {
  double mean;
  double sd;
};

inline constexpr Normal caliper_zero_mm{0.0, 0.02};
inline constexpr Normal inside_bias_mm{0.0, 0.02};
inline constexpr Normal jaw_flat_term_mm2{0.06, 0.04};  ///< g^2/2 for flats of 0.2 to 0.45 mm on the inside jaws
inline constexpr Normal hole_c1_mm2{0.1, 0.15};
inline constexpr Normal peg_p0_mm{0.0, 0.15};
inline constexpr Normal peg_p1_mm2{0.0, 0.15};
/// Scale of an axis along which no length was read, for holes, pegs and diagonals that need it (plastics shrink by
/// 0 to 0.6 % in place; the sign is left open).
inline constexpr Normal scale_unread{0.0, 0.003};

inline constexpr double copy_edge_sd_mm = 0.015;  ///< edge growth from copy to copy
inline constexpr double copy_scale_sd = 0.0006;   ///< scale from copy to copy
inline constexpr double copy_df = 4;              ///< degrees of freedom that the two are worth

/// Scatter of the mean reading of one place about the model, where readings leave no degree of freedom to see it:
/// root of 0.03^2 (bound to the feature) + 0.02^2 (feature and copy) + 0.015^2 / 2 (reading).
inline constexpr double feature_sd_mm = 0.0376;
inline constexpr double feature_df = 4;
/// Share of the variance of a place's mean that is bound to the feature's edges: 0.03^2 of the above.
inline constexpr double edge_share = 0.64;

/// Repeatability of one reading, where nothing was read twice.
inline constexpr double reading_sd_mm = 0.015;
inline constexpr double reading_df = 10;
/// Floor of the repeatability: a display of 0.01 mm shows no scatter below its rounding, 0.01 / sqrt(12).
inline constexpr double resolution_sd_mm = 0.0029;
/// Standard uncertainty of the true size of a drill shank, gauge or ring used as a reference.
inline constexpr double reference_u_mm = 0.002;

}  // namespace fitwright::prior
