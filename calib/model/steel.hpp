#pragma once
// Steel first: what closed jaws, gauges and rings say of the caliper, and which weak priors are still needed.

#include <map>
#include <string>
#include <vector>

#include "model/staged.hpp"
#include "reading/reading.hpp"

namespace fitwright {

/// Repeatability of one reading: pooled standard deviation of repeats at one place.
struct Repeatability {
  double sd_mm = 0;
  double df = 0;
  bool assumed = false;  ///< nothing was read twice: a typical value
};

/// Pools repeats of flat faces, walls and steel (round places are read in two directions on purpose, so they count
/// only when nothing else does), never below the rounding of a 0.01 mm display. Where nothing was read twice a typical
/// value is assumed, or without priors that rounding alone.
Repeatability repeatability_of(const ReadingSet& set, const std::vector<bool>& counts, bool use_priors);

/// One pseudo-reading a reference: zero and gauge bear on the caliper's zero, rings on zero, inside bias and jaw flat
/// (reading = zero + inside + sqrt(d^2 - g^2), linearised about `at`). u = max(s / sqrt(n), rounding), with the
/// reference's own. `true_size_mm` by feature_id where not the nominal.
std::vector<PseudoReading> steel_readings(const ReadingSet& set, const std::vector<bool>& counts,
                                          const std::map<std::string, double>& true_size_mm,
                                          const Repeatability& repeatability, const Values& at);

/// The priors that rows and steel leave a need for.
std::vector<PseudoReading> priors_needed(const Rows& rows, const std::vector<PseudoReading>& steel);

}  // namespace fitwright
