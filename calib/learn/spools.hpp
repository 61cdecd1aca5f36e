#pragma once
// What to expect of a new spool from earlier spools of the same material: a random-effects mean with an interval for
// the next one.
//
//     y_i = mu + b_i + e_i,   b_i ~ N(0, tau^2) from spool to spool,   e_i ~ N(0, u_i^2) from measuring
//
// Mean and scatter (random_effects): tau^2 by restricted maximum likelihood, the mean's variance by Hartung and Knapp,
// never below 1/sum w:
//     var(mu) = max(1, q)/sum w,   q = sum w (y - mu)^2/(k - 1),   w = 1/(u^2 + tau^2)
// and from these the usual interval for the next one, mu +- t(k - 1) sqrt(tau^2 + var(mu)).
// Sources: Hartung & Knapp, Statistics in Medicine 20 (2001); Higgins, Thompson & Spiegelhalter, Journal of the Royal
// Statistical Society A 172 (2009); Partlett & Riley, Statistics in Medicine 36 (2017).
//
// That interval is too short where spools differ about as much as one can measure: tau^2 then often comes out as 0. So
// the forecast (next_spool) averages over what tau^2 may be: the restricted likelihood with Jeffreys' prior,
//     next ~ N(mu(tau^2), tau^2 + 1/sum w)   averaged over   p(tau^2) ~ sqrt(I(tau^2)) L_R(tau^2)
// (Box & Tiao, Bayesian Inference in Statistical Analysis (1973), 5.2, for the balanced case). When u is small beside
// tau both are Student's t with k - 1 degrees of freedom. Formulas and figures: docs/mathematics.md, 27.

#include <string>
#include <vector>

#include "base/result.hpp"

namespace fitwright {

/// The shrink factor (or any other property) found of one spool.
struct SpoolValue {
  std::string spool;
  double value = 0;  ///< a ratio for shrink factors
  double u = 0;      ///< standard uncertainty, unit of the value, > 0
};

/// Mean and scatter of a random-effects model.
struct RandomEffects {
  double mean = 0;
  double mean_u = 0;      ///< Hartung and Knapp, not below 1/sum w
  double between_sd = 0;  ///< tau; 0 when the values scatter no more than their uncertainties
  double ratio = 0;       ///< q: scatter found over scatter expected
  int count = 0;
};

/// The usual interval for the next one, +- this half-width about the mean (see above).
double usual_half_width(const RandomEffects& effects, double level);

/// Errors: Code::unanswerable for fewer than two values; Code::bad_input for a value or uncertainty that is not finite,
/// or an uncertainty not above zero, all at once, named by spool.
Result<RandomEffects> random_effects(const std::vector<SpoolValue>& values);

/// Scatter of the shrink factor from spool to spool of one material where fewer than three spools show it: 0.1 %, worth
/// 4 degrees of freedom (common practice, no source).
inline constexpr double typical_spool_sd = 0.001;
inline constexpr double typical_spool_df = 4;
/// From so many spools on their own scatter counts alone.
inline constexpr int spools_for_scatter = 3;

struct SpoolForecast {
  double value = 0;  ///< expected of the next spool
  double u = 0;      ///< with df: value +- t u is as wide as the interval
  double df = 0;     ///< spools - 1, or what the typical scatter and they are worth together
  double lower = 0;  ///< 95 % interval for the next spool's true value
  double upper = 0;
  double between_sd = 0;  ///< scatter from spool to spool by REML; typical where one spool cannot show it
  int spools = 0;
  bool typical_scatter = false;  ///< fewer than three spools: scatter is assumed, or partly
  std::string method;            ///< what was done
  std::string sentence;          ///< for people; says that it is expected, not measured
};

/// The forecast for the next spool of `material`. With one or two spools the typical scatter stands in for Jeffreys'
/// prior: a scaled inverse chi-squared about typical_spool_sd^2.
/// Errors: Code::unanswerable without any spool; Code::bad_input as for random_effects.
Result<SpoolForecast> next_spool(const std::string& material, const std::vector<SpoolValue>& earlier);

}  // namespace fitwright
