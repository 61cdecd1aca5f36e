#pragma once
// An evening of measuring as a value: what was read, where the hand is, what was put aside. Undo keeps whole values.

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "bench/measuring/measure_plan.hpp"
#include "reading/checks.hpp"
#include "reading/reading.hpp"

namespace fitwright {

/// A reading that was taken.
struct Taken {
  Reading reading;
  std::size_t spot = 0;        ///< into MeasurePlan::spots
  std::string why;             ///< why it replaced another value; empty when it is the first
  std::optional<double> at_s;  ///< when it was typed, seconds of any steady clock
};

/// One more reading that the user asked for, to be taken after another.
struct MoreAsked {
  std::size_t spot = 0;
  int repeat = 0;
  ReadingKey after;
  bool operator==(const MoreAsked&) const = default;
};

/// What of a copy cannot be read any more, and why.
struct DamagedPlace {
  int copy = 1;
  std::string feature_id;
  std::string note;
  bool operator==(const DamagedPlace&) const = default;
};

/// What the user said beside the readings.
struct MeasureMarks {
  std::vector<ReadingKey> skipped;
  std::vector<ReadingKey> kept;  ///< doubtful readings that are really so
  std::vector<DamagedPlace> damaged;
  std::vector<MoreAsked> more;
  bool operator==(const MeasureMarks&) const = default;
};

/// Cheap to copy: the parts are shared and never changed. Null parts stand for empty ones.
struct Measuring {
  std::shared_ptr<const MeasurePlan> plan;
  std::vector<std::shared_ptr<const Taken>> taken;       ///< in the order they were typed
  std::shared_ptr<const std::vector<Reading>> unplaced;  ///< readings at hand that belong to no place of the plan
  std::shared_ptr<const MeasureMarks> marks;
  std::optional<ReadingKey> here;  ///< where the next line goes; empty when all is read
  std::optional<ReadingKey> back;  ///< where to go on after a reading that is typed again
};

/// The same plan, readings in the same order, marks and place. When and why a value was typed does not count.
bool operator==(const Measuring& a, const Measuring& b);

/// The same readings, marks and place on plans that say the same, in whatever order the readings were typed and in
/// whatever unit they are shown.
bool same_evening(const Measuring& a, const Measuring& b);

/// The beginning of an evening.
Measuring begin_measuring(std::shared_ptr<const MeasurePlan> plan);

/// The marks, or empty ones.
const MeasureMarks& marks_of(const Measuring& m);
/// The reading with that key, or null.
const Taken* taken_at(const Measuring& m, const ReadingKey& key);
/// The last one typed, or null.
const Taken* last_taken(const Measuring& m);

enum class DueState { due, read, skipped, damaged };

/// A reading of the evening, taken or not, at its place in the order.
struct DueLine {
  Due due;
  ReadingKey key;
  DueState state = DueState::due;
  bool planned = true;  ///< false: a third reading, or one that was asked for
};

/// All of them in order: what was planned, then what came of it. At the end of a round stands a further reading of each
/// place of which two readings differ by more than 0.05 mm. What is planned of a place read often enough by others
/// falls away.
std::vector<DueLine> due_lines(const Measuring& m);

/// Index of the line with that key, or none_there.
std::size_t find_line(const std::vector<DueLine>& lines, const std::optional<ReadingKey>& key);

/// The next line that is due after `key`, round the end; without a key, or one that is not there, the first.
std::optional<ReadingKey> next_due(const std::vector<DueLine>& lines, const std::optional<ReadingKey>& key);

/// The number that the next unplanned reading of this place gets.
int free_repeat(const Measuring& m, std::size_t spot);

/// Readings as the gate and the estimator take them, in the order typed, those without a place last.
ReadingSet readings_of(const Measuring& m);

/// What the present fit expects at a place, mm; where there is none the drawn size stands for it.
using ExpectedSizes = std::map<PlaceKey, double>;

/// A reading that looks like a slip and that nobody has said is right.
struct MeasureDoubt {
  ReadingKey key;
  Rule rule = Rule::entry;
  double reading_mm = 0;
  std::optional<double> proposal_mm;
  std::string slip;      ///< "decimal point shifted", or empty
  double off_mm = 0;     ///< how far from the drawn size (entry) or from the median of its place (repeat)
  std::string sentence;  ///< "41.12 is 1.12 from drawn. 40.12?"
};

/// All doubts in the order typed: the last is the one that Enter, Space and Esc answer. None of them holds anything up.
std::vector<MeasureDoubt> doubts_of(const Measuring& m, const ExpectedSizes& expected = {});

}  // namespace fitwright
