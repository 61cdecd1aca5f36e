#pragma once
// The places of the window, in the order of the job.

#include <string>
#include <vector>

namespace fitwright {

enum class Stage { setup, make, measure, understand, correct, history, fits };

/// What the side list says of a place: what is done (a tick) or missing (a count), for the setup on the bench.
struct PlaceLine {
  Stage place = Stage::measure;
  std::string name;  ///< "Measure"
  std::string mark;  ///< "✓", "17", or nothing
  std::string said;  ///< "17 readings are due": for the tip and the screen reader
};

/// "Setup", "Make", ...
std::string name_of(Stage place);
/// All places in their order.
const std::vector<Stage>& all_places();

}  // namespace fitwright
