#pragma once
// Slips at entry: the gate on one reading and the check of the repeats of one place (the study's rules 1 and 2).

#include <compare>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "reading/reading.hpp"

namespace fitwright {

/// Which rule makes a reading suspicious.
enum class Rule { entry, repeat, residual };
std::string_view word(Rule rule);

/// The digits that a caliper showed: slips are slips of those.
enum class Digits { mm, inches };

/// Which digits a reading was typed in, as far as its value tells: a whole number of thousandths of a millimetre, or of
/// ten-thousandths of an inch. Where both or neither fits, `usual`.
Digits digits_of(double reading_mm, Digits usual = Digits::mm);

/// A reading that looks like a slip. Nothing is changed by it; the caller decides.
struct Suspect {
  std::size_t index = 0;  ///< into ReadingSet::rows
  Rule rule = Rule::entry;
  std::optional<double> proposal_mm;  ///< what was probably meant, when exactly one slip explains the reading
  std::string slip;                   ///< that slip in words ("decimal point shifted"), or empty
  double against_mm = 0;  ///< what it was held against: the drawn size (entry), the median of its place (repeat)
};

/// Half-width (mm) within which a reading of `feature` passes the gate around its nominal:
/// max(0.5, 0.015 L); walls max(0.15, 0.4 L). Steel: the same around the true size.
double gate_half_width_mm(const Feature& feature);

/// Whether the reading lies within the gate around its nominal.
bool passes_gate(const Reading& reading);

/// Sizes beyond this (mm) are slips: no desktop printer is larger.
inline constexpr double absurd_size_mm = 1e4;

/// Whether a caliper can show this for the feature at all: above zero, except at closed jaws and except one millimetre
/// short of a sound reading, as a thin wall can be typed (the gate asks about that as about every other slip).
bool can_be_read(const Feature& feature, double reading_mm);

/// One reading against the gate. `expected_mm` is the median of the place's other readings or the present fit, if
/// either exists. Empty when the reading passes. A proposal is made when exactly one of r*10, r/10, r*25.4, r+1, r-1
/// or a swap of two neighbouring digits (of the reading with two decimals) lands within 0.15 mm of `expected_mm`
/// (without it: within 0.15 + 0.006 L of L). Of a reading in inches: r*10, r/10, the millimetres that its digits are, a
/// tenth of an inch more or less, or a swap (of the inches with four decimals).
std::optional<Suspect> check_entry(const Reading& reading, std::optional<double> expected_mm,
                                   Digits usual = Digits::mm);

/// What a reading is a repeat of: rows with equal places were read with the jaws at one place of one copy. Steel was
/// not printed, so its copy does not count; a lying hole has two places, `up` and `across` (its note).
struct PlaceKey {
  std::string feature_id;
  int copy = 0;
  std::string direction;
  auto operator<=>(const PlaceKey&) const = default;
};
PlaceKey place_of(const Reading& reading);

/// All readings of a set: gate, then repeats. The gate lets a hole or peg pass that is off like the others of its kind
/// (three places or more, off by at most 1 mm in their median: the gate about that) and that no slip which
/// all of them can share (a millimetre, inches, the point) brings to its drawn size: a law of holes, not slips. A
/// reading is a repeat suspect when its place has three or more gate-passing readings and it lies more than 0.08 mm
/// (pins: and more than one step of the shanks) from their median; a proposal is made when exactly one slip brings it
/// back to within that. A reading outside the gate is compared with the median of the others of its place that pass.
/// Ordered by row index. `usual`: what the caliper of these readings shows, for digits_of().
std::vector<Suspect> check_readings(const ReadingSet& set, Digits usual = Digits::mm);

/// Repeats that differ by more than this (mm) are read a third time.
inline constexpr double third_limit_mm = 0.05;

/// Whether two readings of one place differ by more than that (pins: and more than one step), so that only a third
/// tells which is right.
bool need_a_third(const Reading& a, const Reading& b);

/// Places (feature, copy) with exactly two gate-passing readings that differ by more than 0.05 mm (pins: and more than
/// one step): read a third time. In the order of the set.
std::vector<std::pair<std::string, int>> places_wanting_a_third(const ReadingSet& set);

}  // namespace fitwright
