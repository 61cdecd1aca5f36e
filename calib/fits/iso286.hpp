#pragma once
// Limits and fits of ISO 286-1:2010 and ISO 286-2:2010 for sizes up to 500 mm, and general tolerances of
// ISO 2768-1:1989.

#include <optional>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace fitwright {

/// Standard tolerance in micrometres of grade IT01 (-1), IT0 (0), IT1 (1) .. IT18. Empty outside sizes above 0 up to
/// 500 mm, and for IT14 and above up to 1 mm (ISO 286-1:2010, 4.2.2.3.2: not used there).
std::optional<double> standard_tolerance_um(double nominal_mm, int grade);
/// "IT01", "IT0", "IT7".
std::string grade_name(int grade);
/// The finest grade whose tolerance is at least `width_um`; empty when none is.
std::optional<int> grade_holding(double width_um, double nominal_mm);

/// Limits of one tolerance class at a size, micrometres from the nominal.
struct ClassLimits {
  std::string name;  ///< "H7", "g6"
  bool hole = false;
  double upper_um = 0;
  double lower_um = 0;
};

/// Limits of a class. Letters c d e f g h js k m n p r s, capital for holes. Errors: Code::usage, saying which letters,
/// grades or sizes there are.
Result<ClassLimits> class_limits(double nominal_mm, std::string_view name);

enum class FitKind { clearance, transition, interference };
std::string_view word(FitKind kind);

/// Deviations that a general tolerance allows: ISO 2768-1:1989, table 1.
struct GeneralTolerance {
  char name = 'm';  ///< f fine, m medium, c coarse, v very coarse
  double plus_minus_mm = 0;
};
/// Errors: Code::usage for a class or size that the table does not have.
Result<GeneralTolerance> general_tolerance(double nominal_mm, char name);

/// What a text like "25 H7/g6", "25 H7", "25 g6" or "40 m" says.
struct ToleranceAnswer {
  double nominal_mm = 0;
  std::optional<ClassLimits> hole, shaft;
  std::optional<double> clearance_max_um, clearance_min_um;  ///< where both are there; negative: interference
  std::optional<FitKind> fit;
  std::optional<GeneralTolerance> general;
};

/// Errors: Code::usage, all at once.
Result<ToleranceAnswer> tolerance_of(const std::string& text);

/// The answer in plain words for people, several lines.
std::string in_words(const ToleranceAnswer& answer);

}  // namespace fitwright
