#pragma once
// Runs shared out among threads; results keep their place, so that what is printed does not depend on who was first.

#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace fitwright::accuracy {

/// f(0), f(1), ... f(n-1) on `threads` threads. The first exception thrown is thrown again here.
template <class F>
auto in_parallel(int n, int threads, F f) -> std::vector<decltype(f(0))> {
  std::vector<decltype(f(0))> results(static_cast<std::size_t>(n));
  std::atomic<int> next{0};
  std::exception_ptr failure;
  std::mutex guard;
  const auto work = [&] {
    for (int i = next++; i < n; i = next++) {
      try {
        results[static_cast<std::size_t>(i)] = f(i);
      } catch (...) {
        const std::lock_guard lock(guard);
        if (!failure) failure = std::current_exception();
        next = n;
      }
    }
  };
  std::vector<std::thread> crew;
  for (int t = 1; t < threads; ++t) crew.emplace_back(work);
  work();
  for (std::thread& t : crew) t.join();
  if (failure) std::rethrow_exception(failure);
  return results;
}

}  // namespace fitwright::accuracy
