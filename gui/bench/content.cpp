#include "bench/content.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace fitwright {

bool has_reading(const Reading& reading) { return std::isfinite(reading.reading_mm); }

ReadingSet only_read(const ReadingSet& readings) {
  ReadingSet kept{readings.source, {}};
  std::copy_if(readings.rows.begin(), readings.rows.end(), std::back_inserter(kept.rows), has_reading);
  return kept;
}

}  // namespace fitwright
