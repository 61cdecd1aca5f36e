#pragma once
// An evening at the record: which copies of a setup are measured, where each reading is kept, and keeping what a step
// has changed.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "bench/measuring/measure_keeping.hpp"
#include "correct/state.hpp"
#include "record/record.hpp"
#include "record/store.hpp"

namespace fitwright {

/// After this long without a reading the next one begins another session: the caliper was put away, so its zero is read
/// again (common practice, no source).
inline constexpr double session_pause_h = 8;

/// Where the readings of an evening are in the record.
struct Evening {
  record::Id setup, caliper;
  record::Id session;  ///< empty until the first reading
  std::vector<record::Kept<record::Copy>> copies;
  std::map<std::pair<int, std::string>, record::Id> copy_of;      ///< of a copy number and feature id of the plan
  std::map<std::pair<int, std::string>, std::string> feature_of;  ///< its id in the record
  std::map<ReadingKey, record::Kept<record::StoredReading>> readings;
  std::map<ReadingKey, record::Kept<record::SteelReading>> steel;
  Measuring kept;  ///< as the record has it
  State printed_with;
  std::vector<std::string> notes;  ///< in sentences: copies left out, readings without a place
};

/// Finds the copies of a setup that belong together (printed in the state of the newest one), plans the evening and
/// puts the readings there are at their places. A setup without copies gives an evening without a plan. Errors:
/// Code::bad_input for what the record says and cannot be understood; Code::io.
Result<Evening> evening_of(record::Record& record, const record::Id& setup, const record::Id& caliper);

/// Keeps what `now` has and `evening.kept` has not: readings added, amended, taken out, and where the hand is. All or
/// nothing; afterwards `evening` says so. Errors: the record's; then nothing was kept.
Result<Done> keep(record::Record& record, Evening& evening, const Measuring& now);

}  // namespace fitwright
