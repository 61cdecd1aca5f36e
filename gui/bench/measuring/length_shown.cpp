#include "bench/measuring/length_shown.hpp"

#include <cmath>

#include "bench/shown.hpp"

namespace fitwright {
namespace {

constexpr double mm_per_inch = 25.4;               // exact by definition (international inch, 1959)
constexpr int mm_decimals = 2, inch_decimals = 4;  // as calipers show

double in_unit(double mm, bool inches) { return inches ? mm / mm_per_inch : mm; }
int decimals(bool inches) { return inches ? inch_decimals : mm_decimals; }

}  // namespace

std::string length_shown(double mm, bool inches) { return shown(in_unit(mm, inches), decimals(inches)); }

std::string length_signed(double mm, bool inches) { return shown_signed(in_unit(mm, inches), decimals(inches)); }

std::string as_read(double mm, bool inches) {
  const double steps = mm / shown_step_mm(inches);
  constexpr double counting_error = 1e-6;  // binary digits of steps of which no caliper has a million
  const bool whole = std::abs(steps - std::round(steps)) < counting_error;
  return shown(in_unit(mm, inches), decimals(inches) + (whole ? 0 : 1));
}

double shown_step_mm(bool inches) { return inches ? 1e-4 * mm_per_inch : 1e-2; }

std::string length_unit(bool inches) { return inches ? "in" : "mm"; }

}  // namespace fitwright
