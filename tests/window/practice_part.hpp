#pragma once
// Printed coupons as the practice printer makes them, for a person at the keyboard who reads them with a caliper.

#include <cstdint>
#include <string>
#include <vector>

#include "bench/measuring/measure_plan.hpp"
#include "correct/state.hpp"
#include "design/design.hpp"
#include "reading/reading.hpp"

namespace window_test {

/// Copies of one coupon, each lying as said, read often enough for any hand. The printer is the same one each time:
/// its errors at `usual` settings are those of default_truth(), and what `now` differs from them acts as the algebra of
/// corrections says.
class PracticePart {
 public:
  PracticePart(const fitwright::Coupon& coupon, std::vector<int> turned_deg, const fitwright::State& usual,
               const fitwright::State& now, std::uint64_t seed);

  /// What the caliper shows there, two decimals. Throws for a place that is not on the coupon.
  [[nodiscard]] double shown_mm(const fitwright::ReadingKey& key) const;

 private:
  fitwright::ReadingSet readings_;
};

}  // namespace window_test
