#pragma once
// Times in milliseconds, as the median of repeated calls.

#include <functional>

namespace fitwright::bench {

struct Timing {
  double median_ms = 0;
  int calls = 0;
};

/// Calls `f` once to warm up, unless that alone takes longer than `budget_s`, then until `budget_s` seconds are used,
/// at least 3 and at most 200 times.
Timing time_of(const std::function<void()>& f, double budget_s);

}  // namespace fitwright::bench
