#pragma once
// Readings of copies that are in the record already and wait to be read.

#include "record/reading_set.hpp"

namespace fitwright::record {

/// Keeps the readings of a file as keep_readings() does, except that copies of the file which are not known yet go to
/// the setup's copies on which nothing was read, in the order of their numbers, where all of them fit: as many at
/// least, lying the same way, of a coupon with these features. With options.copy set it is keep_readings() itself.
Result<KeptReadings> keep_on_waiting_copies(Record& record, const ReadingSet& readings, const KeepOptions& options);

}  // namespace fitwright::record
