#include "bench/stopwatch.hpp"

#include <algorithm>
#include <chrono>
#include <vector>

namespace fitwright::bench {
namespace {

constexpr std::size_t least_calls = 3;
constexpr std::size_t most_calls = 200;

double once_ms(const std::function<void()>& f) {
  const auto begin = std::chrono::steady_clock::now();
  f();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
}

}  // namespace

Timing time_of(const std::function<void()>& f, double budget_s) {
  const double first = once_ms(f);
  if (first > budget_s * 1000) return {first, 1};
  std::vector<double> all;
  double used = 0;
  while (all.size() < least_calls || (used < budget_s * 1000 && all.size() < most_calls)) {
    all.push_back(once_ms(f));
    used += all.back();
  }
  const auto middle = all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2);
  std::nth_element(all.begin(), middle, all.end());
  return {*middle, static_cast<int>(all.size())};
}

}  // namespace fitwright::bench
