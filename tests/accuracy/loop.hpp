#pragma once
// Closing the loop: print, read, estimate, correct, and ask physics what the next print would measure.

#include <string>
#include <vector>

#include "accuracy/scenario.hpp"
#include "correct/correction.hpp"

namespace fitwright::accuracy {

/// One length after the corrections of one policy, over all runs.
struct LoopTally {
  Policy policy = Policy::shrink;
  std::string length;  ///< "x100", "y100", "slot_x20"
  int runs = 0;
  double inside = 0;        ///< share whose remaining error lies in the promised 95 % interval
  double mean_t = 0;        ///< mean of |remaining - announced| / u
  double before_mm = 0;     ///< root mean square error before
  double remaining_mm = 0;  ///< and after the corrections
  double announced_mm = 0;  ///< root mean square of what was announced to remain
};

struct LoopScenario {
  Places places = Places::coupons;
  Lay lay;
};

/// Each run: a truth and a state drawn at random; the corrections of all four policies from the same readings.
std::vector<LoopTally> close_the_loop(const LoopScenario& scenario, int runs, int threads);

/// The ranges of what is drawn here beyond draw_truth, a line each.
std::vector<std::string> loop_ranges();

/// The policies whose remaining error should be nothing beyond its uncertainty.
bool makes_right(Policy policy);

}  // namespace fitwright::accuracy
