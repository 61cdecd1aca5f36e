#pragma once
// An evening to readings and back, and what each step changes, for those who save it as it is typed.

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "bench/measuring/measuring.hpp"

namespace fitwright {

/// An evening taken up again.
struct Resumed {
  Measuring measuring;
  std::vector<std::string> notes;  ///< readings that have no place in the plan
};

/// The readings put at their places in the plan; the hand goes on after the last of them. Readings of features or
/// copies that the plan does not have are kept beside it and told; readings_of() gives them all back. Errors, all at
/// once: Code::bad_input for readings that contradict the plan (drawn otherwise, lying otherwise on the bed, there
/// twice): together they would make a file that nobody can read.
Result<Resumed> with_readings(std::shared_ptr<const MeasurePlan> plan, const ReadingSet& readings);

/// Where the hand is, and what was skipped, kept, damaged and asked for: text to be saved beside the readings, one fact
/// a line. Byte-stable.
std::string bookmark_of(const Measuring& m);
/// The same evening with the bookmark's facts; a line that means nothing here is passed over.
Measuring with_bookmark(const Measuring& m, const std::string& bookmark);

/// One reading that a step has added, changed or taken out.
struct ReadingChange {
  enum class What { added, amended, removed };
  What what = What::added;
  ReadingKey key;
  Reading reading;  ///< as it is now; removed: as it was
  std::optional<double> old_mm, new_mm;
  std::string why;  ///< amended only: "read again", "proposal taken: decimal point shifted", "taken back", ...
};

/// In the order of `before`, then what is new. Undo is a change like any other.
std::vector<ReadingChange> changes_between(const Measuring& before, const Measuring& after);

/// Where a reading of a file belongs in the plan, or why nowhere.
struct Belongs {
  std::size_t spot = none_there;
  std::string why_not;       ///< "is not on this plan"
  bool contradicts = false;  ///< it cannot stand beside readings of this plan
};
Belongs place_in_plan(const MeasurePlan& plan, const Reading& reading);

}  // namespace fitwright
