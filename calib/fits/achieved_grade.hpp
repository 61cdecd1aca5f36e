#pragma once
// Which ISO 286 grade a setup achieves: how far its features lie about the corrected model.

#include <optional>
#include <string>
#include <vector>

#include "model/estimates.hpp"

namespace fitwright {

/// One kind of feature within one range of sizes.
struct AchievedGrade {
  std::string what;  ///< "in plane", "heights", "holes", "pegs"
  double over_mm = 0, up_to_mm = 0;
  int places = 0;    ///< features, each once
  double sd_mm = 0;  ///< of one new place
  double df = 0;
  double factor = 0;         ///< k: 95 % of all with 95 % confidence
  double plus_minus_mm = 0;  ///< k sd
  std::optional<int> grade;  ///< the finest that holds it at the middle size; empty: none, or too few data
  std::string text;          ///< the sentence
};

/// Fewer degrees of freedom than this say nothing of use: the factor is above 5.
inline constexpr double least_grade_df = 4;

/// By kind and size range, after correction (residuals about the model). Ranges with too few places say so.
std::vector<AchievedGrade> achieved_grades(const Estimates& estimates);

}  // namespace fitwright
