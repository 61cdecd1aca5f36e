#include "bench/content.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace fitwright {

Content with_measuring(Content content, Measuring measuring) {
  // A step that reads nothing (going to a place, skipping one) leaves the readings as saved as they were.
  if (measuring.taken == content.measuring.taken && measuring.unplaced == content.measuring.unplaced &&
      content.measuring.plan) {
    content.measuring = std::move(measuring);
    return content;
  }
  ReadingSet readings = readings_of(measuring);
  if (readings.source.empty()) readings.source = content.readings->source;
  content.readings = std::make_shared<const ReadingSet>(std::move(readings));
  content.measuring = std::move(measuring);
  return content;
}

bool has_reading(const Reading& reading) { return std::isfinite(reading.reading_mm); }

ReadingSet only_read(const ReadingSet& readings) {
  ReadingSet kept{readings.source, {}};
  std::copy_if(readings.rows.begin(), readings.rows.end(), std::back_inserter(kept.rows), has_reading);
  return kept;
}

}  // namespace fitwright
