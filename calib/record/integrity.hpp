#pragma once
// The deep check of a record: every page, every reference, every chain of amendments, every text that should be JSON.

#include "base/result.hpp"
#include "record/record.hpp"

namespace fitwright::record {

/// What is wrong in the record; empty when nothing is. Looks at all of it; writes nothing. Of each kind of fault the
/// first are told one by one and the rest counted.
///  - the database's own check of pages and indices, with the pages' sums (pages.hpp)
///  - references to what is not there, or to a row that is not the first of its thing
///  - amendments of another thing, or of each other in a circle, or older than what they amend
///  - triggers that keep the rows as they were written
///  - columns that hold JSON
Problems check_record(Record& record);

}  // namespace fitwright::record
