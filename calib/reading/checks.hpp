#pragma once
// Slips at entry: the gate on one reading and the check of the repeats of one place (the study's rules 1 and 2).

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "reading/reading.hpp"

namespace fitwright {

/// Which rule makes a reading suspicious.
enum class Rule { entry, repeat, residual };
std::string_view word(Rule rule);

/// A reading that looks like a slip. Nothing is changed by it; the caller decides.
struct Suspect {
  std::size_t index = 0;  ///< into ReadingSet::rows
  Rule rule = Rule::entry;
  std::optional<double> proposal_mm;  ///< what was probably meant, when exactly one slip explains the reading
  std::string slip;                   ///< that slip in words ("decimal point shifted"), or empty
};

/// Half-width (mm) within which a reading of `feature` passes the gate around its nominal:
/// max(0.5, 0.015 L); walls max(0.15, 0.4 L). Steel: the same around the true size.
double gate_half_width_mm(const Feature& feature);

/// One reading against the gate. `expected_mm` is the median of the place's other readings or the present fit, if
/// either exists. Empty when the reading passes. A proposal is made when exactly one of r*10, r/10, r*25.4, r+1, r-1
/// or a swap of two neighbouring digits lands within 0.15 mm of `expected_mm` (without it: 0.15 + 0.006 L of L).
std::optional<Suspect> check_entry(const Reading& reading, std::optional<double> expected_mm);

/// All readings of a set: gate, then repeats. A reading is a repeat suspect when its place (feature, copy) has three
/// or more gate-passing readings and it lies more than 0.08 mm from their median. Ordered by row index.
std::vector<Suspect> check_readings(const ReadingSet& set);

/// Places with exactly two gate-passing readings that differ by more than 0.05 mm: read a third time.
std::vector<std::pair<std::string, int>> places_wanting_a_third(const ReadingSet& set);

}  // namespace fitwright
