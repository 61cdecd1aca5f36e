#pragma once
// The tables behind iso286.hpp.

#include <array>

namespace fitwright::iso286 {

/// Standard tolerances in micrometres, IT01, IT0, IT1 .. IT18, for sizes above the row before up to and including this.
struct GradeRow {
  double up_to_mm;
  std::array<double, 20> tolerance_um;
};
extern const std::array<GradeRow, 13> grade_rows;

/// Fundamental deviations of shafts in micrometres: upper ones (es) of c to g, lower ones (ei) of k to s, k for grades
/// 4 to 7; for sizes up to and including deviation_up_to_mm.
struct LetterRow {
  char letter;
  std::array<int, 25> deviation_um;
};
extern const std::array<double, 25> deviation_up_to_mm;
extern const std::array<LetterRow, 11> letter_rows;

}  // namespace fitwright::iso286
