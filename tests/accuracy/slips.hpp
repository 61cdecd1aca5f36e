#pragma once
// How many mistyped readings are found, and how many sound ones are suspected.

#include <string>
#include <vector>

#include "accuracy/scenario.hpp"

namespace fitwright::accuracy {

struct SlipTally {
  std::string slip;      ///< "shifted point, x 10", ...
  int typed = 0;         ///< slips of this kind that changed the reading
  double by_gate = 0;    ///< share found by the gate at entry
  double by_repeat = 0;  ///< share found by gate or repeat check
  double by_all = 0;     ///< share found by those or by the residual of the place
  double proposed = 0;   ///< share of those found by gate or repeat check with what was meant proposed, as far as
                         ///< the slip keeps its digits: half of the last shown, times 10 (a tenth) or 25.4 (inches)
  double wrongly = 0;    ///< share of them with something else proposed
};

struct SlipCheck {
  int repeats = 3;
  std::vector<SlipTally> by_kind;  ///< the last row is all kinds together
  int sound = 0;                   ///< readings typed as they were read
  int suspected = 0;               ///< of them by gate or repeat check
  int suspected_by_gate = 0;       ///< of them by the gate: their places really are that far off
  int by_residual = 0;             ///< of them told (never set aside) because their place stands out
};

/// Readings of the coupons (one copy, truths drawn, steel read) with 2 % slips.
SlipCheck check_slips(int repeats, int runs, int threads);

}  // namespace fitwright::accuracy
