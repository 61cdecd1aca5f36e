#include "design/trials_template.hpp"

#include <algorithm>
#include <stdexcept>

#include "base/number.hpp"

namespace fitwright {

std::string trials_template(const Coupon& coupon, int copies) {
  const FitTrials& trials = coupon.trials;
  if (copies < 1 || trials.places.empty()) throw std::logic_error("a template without rows");
  std::string csv = "clearance_mm,grade,copy,measured_clearance_mm,diameter_mm\n";
  const std::size_t turns = std::max<std::size_t>(1, trials.mates.size());
  for (int copy = 1; copy <= copies; ++copy)
    for (std::size_t turn = 0; turn < turns; ++turn)
      for (auto place = trials.places.rbegin(); place != trials.places.rend(); ++place)
        csv += shortest(place->clearance_mm) + ",," + std::to_string(copy) + ",," + shortest(trials.size_mm) + '\n';
  return csv;
}

}  // namespace fitwright
