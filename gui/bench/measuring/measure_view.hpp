#pragma once
// What the place for measuring shows, as plain strings: the reading in hand large, the rest quiet.

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "bench/measuring/measuring.hpp"

namespace fitwright {

/// Time of one reading until the hand's own pace is known: 36 to 40 readings in about six minutes (common practice, no
/// source).
inline constexpr double usual_seconds_per_reading = 10;

/// Seconds per reading from when readings were typed: the median of the last gaps, pauses and pasted blocks left out;
/// the usual time until five gaps are there.
double seconds_per_reading(const Measuring& m);

/// "1st   40.12".
struct ReadingLine {
  ReadingKey key;
  std::string ordinal;
  std::string value;   ///< "40.12"; "\u00b7" when not read
  bool here = false;   ///< the next line goes here
  std::string remark;  ///< "skipped", "damaged", or the doubt's sentence
  bool doubtful = false;
};

/// A reading that comes next.
struct ComingPlace {
  ReadingKey key;
  std::string words;   ///< "X100a outer"
  std::string change;  ///< what the hand does before it: "inside jaws", "Frame, copy 2 of 2"; empty when it stays
};

struct DoubtLine {
  MeasureDoubt doubt;  ///< for the step that answers it
  std::string where;   ///< "X40, 1st reading"; empty when it stands at the feature in hand
  std::string sentence;
  std::string keys;  ///< "Enter keeps, Space takes 40.12, Esc reads again"
};

/// What the drawing of the part shows.
struct ShownPlace {
  std::shared_ptr<const Coupon> coupon;  ///< null for steel and for parts without a drawing
  std::size_t part = none_there;
  std::size_t jaw_place = none_there;  ///< into Coupon::places
  JawLine line = JawLine::none;        ///< how the jaws stand this time
  std::string feature_id;
  int copy = 1;
  int turned_deg = 0;
};

struct MeasureView {
  bool finished = false;  ///< nothing is due
  std::string heading;    ///< "Frame, copy 2 of 2 (turned 90\u00b0)"
  std::string count;      ///< "17 of 38"
  std::size_t done = 0, total = 0;
  std::string time_left;      ///< "about 4 min left"; empty when finished
  std::string feature_id;     ///< "X40", as engraved
  std::string feature_words;  ///< "outer, over both blocks"
  std::string how;            ///< "outside jaws, along X"
  std::vector<ReadingLine> lines;
  std::string drawn;   ///< "drawn 40.00"
  std::string so_far;  ///< "so far +0.12 \u00b1 0.02": mean and its standard uncertainty; empty before a reading
  std::vector<ComingPlace> next;
  std::string next_line;          ///< "next: X100a outer \u00b7 X100b outer \u00b7 Y10a \u2026"
  std::string jaws_next;          ///< "Then inside jaws, in 3 readings."; empty when they stay to the end
  std::string keys;               ///< "Enter take \u00b7 Backspace undo \u00b7 F2 skip \u00b7 F3 part damaged"
  std::vector<DoubtLine> doubts;  ///< the one to be answered first
  std::string left_out;           ///< "2 skipped, 1 damaged"; empty when nothing is
  std::string said;               ///< all that matters in one sentence, for a screen reader
  ShownPlace shown;
};

/// How many coming readings are named.
inline constexpr std::size_t coming_shown = 4;

/// Pure. `expected` as for doubts_of().
MeasureView measure_view(const Measuring& m, const ExpectedSizes& expected = {});

}  // namespace fitwright
