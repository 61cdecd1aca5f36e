#pragma once
// Everything computed from the content, in one go, without touching it: what the worker thread runs.

#include <cstdint>
#include <optional>
#include <vector>

#include "base/result.hpp"
#include "bench/content.hpp"
#include "correct/correction.hpp"
#include "correct/finding.hpp"
#include "correct/recommend.hpp"
#include "model/estimates.hpp"

namespace fitwright {

struct PolicyOutcome {
  Policy policy = Policy::shrink;
  Result<Correction> outcome = Problems{};
};

/// The same once more without some readings, or with some that are set aside. Nothing is taken out of the readings.
struct TriedReadings {
  std::vector<std::size_t> rows;       ///< of the content
  bool with_them = false;              ///< they are set aside as things stand, and count here
  std::optional<Estimates> estimates;  ///< empty: see `problems`
  Problems problems;
  std::vector<Finding> findings;
  std::optional<Correction> correction;  ///< under the policy chosen; empty where it cannot be followed
};

struct Analysis {
  std::uint64_t revision = 0;          ///< of the document it was computed from
  ReadingSet read;                     ///< the readings that were looked at (rows without a reading left out)
  std::vector<std::size_t> row_of;     ///< row in the content of each row of `read`
  std::optional<Estimates> estimates;  ///< empty: see `problems`
  Problems problems;
  std::vector<Finding> findings;
  std::vector<PolicyOutcome> corrections;  ///< every policy; empty without estimates
  Recommendation recommended;              ///< which of them to follow, or none
  std::vector<BeyondReadings> beyond;      ///< what no reading shows, beside the intervals
  std::optional<TriedReadings> trial;      ///< of the readings that are tried; empty when there is none
};

/// Pure: the same content gives the same analysis, whatever ran before.
Analysis analyse(const Content& content, std::uint64_t revision);

/// The policies in the order they are offered.
const std::vector<Policy>& offered_policies();

}  // namespace fitwright
