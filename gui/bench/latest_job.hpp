#pragma once
// One background thread that always works on the newest job: a job not yet begun is replaced by the next.

#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>

namespace fitwright {

class LatestJob {
 public:
  LatestJob();
  /// Drops a waiting job and waits for the running one.
  ~LatestJob();
  LatestJob(const LatestJob&) = delete;
  LatestJob& operator=(const LatestJob&) = delete;

  /// Runs `job` on the thread after the present one ends; a job still waiting is dropped. `job` must not throw.
  void start(std::function<void()> job);

  /// Returns when nothing runs and nothing waits.
  void wait_until_idle();

 private:
  void run();

  std::mutex mutex_;
  std::condition_variable changed_;
  std::function<void()> waiting_;
  bool busy_ = false;
  bool ending_ = false;
  std::thread thread_;  // last: starts when the rest is ready
};

}  // namespace fitwright
