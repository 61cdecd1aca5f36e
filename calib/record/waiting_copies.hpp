#pragma once
// Readings of copies that are in the record already: known ones again, and those that wait to be read.

#include "record/reading_set.hpp"

namespace fitwright::record {

/// Keeps the readings of a file as keep_readings() does, and finds out where each copy of the file belongs:
///  - to the setup's copy on which just this was read,
///  - else to the first of the setup's copies on which nothing was read, that lay the same way and whose coupon has
///    these features,
///  - else to a new copy: of the setup's newest coupon that has these features, or of the file's own.
/// Features are the same when kind and axis are and nominals agree to six significant digits, which is what the
/// practice printer's files have; the coupon's nominals then hold. With options.copy or options.coupon set these are
/// taken. Errors: those of keep_readings().
Result<KeptReadings> keep_on_waiting_copies(Record& record, const ReadingSet& readings, const KeepOptions& options);

}  // namespace fitwright::record
