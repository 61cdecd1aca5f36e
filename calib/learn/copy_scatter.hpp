#pragma once
// How much copies differ on one printer, from all the copies it has made: edge growth and scale of whole copies, beyond
// the noise of places and readings. It replaces the typical scatter assumed for one or two copies.
//
// Copies of one coupon printed and read together share everything but what differs between copies, so only their
// differences are used: y_fc less its mean over the copies is, for flat lengths in the plane,
//
//     z_f E_c + L_f S_c + noise,     z = +2 outside, -2 inside
//
// and least squares in each copy gives (E_c, S_c) with their noise variance. Formulas: docs/mathematics.md, 27.

#include <string>
#include <vector>

#include "base/result.hpp"
#include "model/copy_prior.hpp"
#include "model/estimates.hpp"

namespace fitwright {

/// What differs between the copies of one set: the same coupon, the same settings, read together.
struct CopyEffects {
  std::vector<double> edge_mm;  ///< edge growth of each copy less their mean
  std::vector<double> scale;    ///< scale of each copy (both axes alike) less their mean
  double edge_noise_mm2 = 0;    ///< variance of one copy's estimate from places and readings alone
  double scale_noise = 0;       ///< the same for scale, a ratio squared
  double noise_df = 0;          ///< degrees of freedom of the two
};

/// The effects of the copies in `estimates` (places read on every copy, flat lengths in the plane).
/// Errors: Code::unanswerable for fewer than two copies, or too few or too equal lengths to tell edge and scale apart.
Result<CopyEffects> copy_effects(const Estimates& estimates);

/// Scatter of one quantity between copies, pooled over sets.
struct PooledScatter {
  double sd = 0;           ///< beyond the noise, above zero; what an interval with `df` needs (see pool_scatter)
  double df = 0;           ///< copies less sets
  double observed_sd = 0;  ///< of single copies' estimates, noise and all
  double noise_sd = 0;     ///< of one copy's estimate, from places and readings
};

/// What one set says: sample variance of its copies' estimates, its degrees of freedom (copies - 1), and how much of
/// it is noise.
struct ScatterEvidence {
  double variance = 0;
  double df = 0;
  double noise_variance = 0;
};

/// Pools sets. Simply subtracting the noise would often give nothing, or less; instead the variance V beyond the noise
/// has the posterior of Jeffreys' prior (Tiao & Tan, Biometrika 52 (1965), for one component),
///     p(V) ~ sqrt(sum df_g/(V + v_g)^2) prod (V + v_g)^(-df_g/2) exp(-df_g s_g^2 / (2 (V + v_g))),   V > 0,
/// and `sd` is that of the Student t with the pooled degrees of freedom whose 95 % interval equals the one that this
/// posterior predicts for the next copy. Without noise it is the pooled standard deviation itself.
/// Precondition: at least one set, df > 0, variances not negative and not all zero; else std::invalid_argument.
PooledScatter pool_scatter(const std::vector<ScatterEvidence>& sets);

/// The history of one printer.
struct CopyScatter {
  int copies = 0;  ///< in sets of two and more
  int sets = 0;
  PooledScatter edge_mm;
  PooledScatter scale;
};

/// Pools the sets of one printer; sets with a single copy do not count. No sets: copies 0 and scatters 0.
CopyScatter copy_scatter(const std::vector<CopyEffects>& sets);

/// From so many copies on, a printer's own history replaces the typical scatter.
inline constexpr int copies_for_history = 5;

/// What to assume for the next one or two copies on this printer: its history from copies_for_history copies on, else
/// the typical values. `source` says which ("pooled from 7 copies of this printer, worth 4 degrees of freedom").
CopyPrior prior_from_history(const CopyScatter& history);

}  // namespace fitwright
