#pragma once
// How names and numbers are put before people: one wording for the command line, the window and printed sheets.

#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include "correct/beyond.hpp"
#include "correct/correction.hpp"

namespace fitwright {

/// What people read for a parameter of the error model, and the unit it reads best in.
struct Wording {
  std::string name;     ///< "scale along X"
  std::string unit;     ///< "%", "mm", "mm²", "°"
  double per_unit = 1;  ///< shown number = value * per_unit
};

/// Wording of a parameter, a scatter or a prior by its name in Estimates. An unknown name is shown as it is, with the
/// unit that its ending tells ("_mm", "_mm2", "_rad", " (mm)").
Wording wording(std::string_view parameter);

/// "2*edge_growth_mm + caliper_zero_mm" with the plain names in it: "2 × edge growth + caliper zero".
std::string plain_expression(const std::string& expression);

/// Unit of such an expression: "mm" when it holds any length, else "mm²" or "" (a ratio).
std::string unit_of_expression(const std::string& expression);

/// What a policy does with the scale error: "the plastic's size factor takes what X and Y share, steps per mm ...".
std::string policy_in_words(Policy policy);

/// "outside, 100 mm along X" for a place of Correction::remains_mm.
std::string place_in_words(const std::string& place);

/// Effects that no reading shows, cause by cause, on a length of 100 mm: "temperature of the part, 3 K: 0.021 mm on 100
/// mm; jaw force, 2 N: 0.007 mm an edge, 0.014 mm on heights". Empty when there are none.
std::string beyond_in_words(const std::vector<BeyondReadings>& effects);

/// A value and its standard uncertainty for columns: u to two significant digits, the value to the same decimals (GUM,
/// JCGM 100:2008, 7.2.6). A u of zero or not finite leaves the value alone, at `most` decimals.
struct ValueAndU {
  std::string value;
  std::string u;     ///< empty when there is none
  int decimals = 0;  ///< of both
};
ValueAndU value_and_u(double value, double u, int most = 5);

/// "0.165 ± 0.042": after ± stands the half-width of the 95 % interval (GUM 7.2.2 asks that ± be kept for such an
/// interval), never the standard uncertainty; `df` are the degrees of freedom of u. Decimals as in value_and_u().
std::string plus_minus(double value, double u, double df = std::numeric_limits<double>::infinity(), int most = 5);

/// The same for an interval that is not Student's own: `half_width` as it is, decimals by `u`.
std::string plus_minus_half(double value, double u, double half_width, int most = 5);

/// `value` with a sign always: "+0.12", "-0.05", "0.00" when it rounds to zero.
std::string with_sign(double value, int decimals);

}  // namespace fitwright
