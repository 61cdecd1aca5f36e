#pragma once
// Hardware that printed parts take: sizes and limits by standard number.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fits/mate.hpp"

namespace fitwright {

/// One size of a piece of hardware.
struct HardwareSize {
  std::string what;  ///< "outside diameter", "across flats", "bore"
  double nominal_mm = 0;
  double low_mm = 0, high_mm = 0;
  bool round = true;
  bool inside = false;  ///< a bore, that a printed peg goes into
};

struct Hardware {
  std::string name;      ///< "bearing 608", "hexagon nut M3"
  std::string standard;  ///< "ISO 15, ISO 492 class Normal"; "common practice, no source" for magnets
  std::vector<HardwareSize> sizes;
  std::string note;   ///< a caution or where the table is not sure
  std::string words;  ///< further words it is found by
  bool own = false;   ///< measured by the user
};

/// All built-in hardware, in a fixed order.
const std::vector<Hardware>& hardware_table();

/// Those that free words ("bearing 608", "M3 nut", "magnet 6x3") ask for, best first: every word must be found (a
/// number as a whole, "3" is not in "M30"). `own`: the user's parts, looked at first.
std::vector<Hardware> find_hardware(std::string_view words, std::span<const Hardware> own = {});

/// The mate that one size of it makes.
Mate mate_of(const Hardware& hardware, const HardwareSize& size);

/// A part of the user's, measured with the user's own caliper.
Hardware own_part(const std::string& name, double reading_mm, bool round, bool inside);

/// Why an own part is as good as one of known size: a sentence.
std::string own_caliper_cancels();

}  // namespace fitwright
