#include "bench/places.hpp"

#include <stdexcept>

namespace fitwright {

std::string name_of(Stage place) {
  switch (place) {
    case Stage::setup:
      return "Setup";
    case Stage::make:
      return "Make";
    case Stage::measure:
      return "Measure";
    case Stage::understand:
      return "Understand";
    case Stage::correct:
      return "Correct";
    case Stage::history:
      return "History";
  }
  throw std::logic_error("a place without a name");
}

const std::vector<Stage>& all_places() {
  static const std::vector<Stage> places{Stage::setup,      Stage::make,    Stage::measure,
                                         Stage::understand, Stage::correct, Stage::history};
  return places;
}

}  // namespace fitwright
