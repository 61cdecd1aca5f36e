#include "bench/places.hpp"

#include <stdexcept>

#include "base/words.hpp"

namespace fitwright {

std::string name_of(Stage place) {
  switch (place) {
    case Stage::setup:
      return tr("Setup");
    case Stage::make:
      return tr("Make");
    case Stage::measure:
      return tr("Measure");
    case Stage::understand:
      return tr("Understand");
    case Stage::correct:
      return tr("Correct");
    case Stage::history:
      return tr("History");
    case Stage::fits:
      return tr("Fits");
  }
  throw std::logic_error("a place without a name");
}

const std::vector<Stage>& all_places() {
  static const std::vector<Stage> places{Stage::setup,   Stage::make,    Stage::measure, Stage::understand,
                                         Stage::correct, Stage::history, Stage::fits};
  return places;
}

}  // namespace fitwright
