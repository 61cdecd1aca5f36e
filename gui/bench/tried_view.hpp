#pragma once
// What readings decide: the estimate with them beside the one without them, and what would change.

#include <cstddef>
#include <string>
#include <vector>

#include "bench/analysis.hpp"

namespace fitwright {

/// Readings that can be tried: one that looks like a slip, or all of those.
struct TriedChoice {
  std::string words;  ///< "X40, copy 1, 2nd reading: 41.12, set aside"
  std::vector<ReadingKey> readings;
};

/// One parameter, estimated both ways.
struct TriedRow {
  std::string name, unit;
  std::string as_is, as_is_half;  ///< value, half of its 95 % interval
  std::string tried, tried_half;
  std::string change;  ///< "+0.012"; empty when one of them is not known
};

struct TriedView {
  std::vector<TriedChoice> choices;  ///< in the order typed; "all of them" last, where there are several
  std::size_t chosen = 0;            ///< into choices; their number when something else is tried, or nothing
  bool shown = false;                ///< something is tried
  std::string title;                 ///< "Without X40, copy 1, 2nd reading: 41.12"
  std::string as_is_title, tried_title;
  std::vector<TriedRow> rows;        ///< parameters that change as shown, the largest change first
  std::string others;                ///< "9 others stay as they are."
  std::vector<std::string> changes;  ///< what would be said and done differently, in sentences
  std::string hint;                  ///< what this is and how to go back; or, with nothing tried, what it is for
};

TriedView tried_view(const Content& content, const Analysis& analysis);

/// The keys of rows of the content.
std::vector<ReadingKey> keys_of_rows(const Content& content, const std::vector<std::size_t>& rows);

}  // namespace fitwright
