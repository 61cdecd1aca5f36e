#pragma once
// Material and money that coupons took.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "record/record.hpp"
#include "record/store.hpp"

namespace fitwright::record {

struct CopyCost {
  Id copy;
  int print = 1;
  std::string design;
  std::string printed_on;
  std::optional<double> grams;  ///< solid; empty when the coupon's are not known
  std::optional<double> money;  ///< empty when grams or the spool's price are not known
};

struct CalibrationCost {
  std::vector<CopyCost> copies;  ///< of the setup, in the order of entry
  double grams = 0;              ///< of those that are known
  std::optional<double> money;   ///< empty when the spool has no price
  std::string currency;          ///< as the spool has it; may be empty
  std::string price_basis;       ///< "24 EUR per kg, PLA slate; density 1.24 g/cm3"
  int unknown = 0;               ///< copies whose grams are not known
};

/// Grams that a coupon takes in a material of `density_g_cm3`. A coupon keeps grams at the density it was made with
/// (its parameter density_g_cm3, or 1.24 when it has none): what counts is the volume, which is the quotient.
std::optional<double> grams_of(const MadeCoupon& coupon, double density_g_cm3);

/// What the calibration of a setup has cost so far: all its copies, with the material and price of its spool.
Result<CalibrationCost> cost_of(Record& record, const Id& setup);

}  // namespace fitwright::record
