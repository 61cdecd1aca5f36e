#pragma once
// Caliper readings as they came in: one row a reading, nothing averaged, nothing corrected.

#include <optional>
#include <string>
#include <vector>

#include "reading/feature.hpp"

namespace fitwright {

/// One caliper reading of one feature of one copy.
struct Reading {
  Feature feature;
  int copy = 1;            ///< which printed specimen; rows with the same number come from the same print
  int repeat = 1;          ///< which time the jaws were put on
  double reading_mm = 0;   ///< in mm (inches are converted on reading)
  int turned_deg = 0;      ///< how the copy lay on the bed: 0, 90, 180, 270
  double step_mm = 0.1;    ///< kind pin: step between the graded shanks
  std::optional<double> part_c;  ///< temperature of the part when read
  std::string note;
  int row = 0;             ///< physical line in the file as an editor counts; 0 = not from a file
};

struct ReadingSet {
  std::string source;      ///< file name for messages
  std::vector<Reading> rows;
};

/// The machine's view of a feature on a copy that lay turned on the bed: at 90 and 270 degrees x and y are
/// exchanged, and + and - of diagonals. Steel is left as it is.
Kind machine_kind(const Reading& reading);
Axis machine_axis(const Reading& reading);

}  // namespace fitwright
