#include "bench/latest_job.hpp"

#include <utility>

namespace fitwright {

LatestJob::LatestJob() : thread_([this] { run(); }) {}

LatestJob::~LatestJob() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
    waiting_ = nullptr;
  }
  changed_.notify_all();
  thread_.join();
}

void LatestJob::start(std::function<void()> job) {
  {
    const std::lock_guard lock(mutex_);
    waiting_ = std::move(job);
  }
  changed_.notify_all();
}

void LatestJob::wait_until_idle() {
  std::unique_lock lock(mutex_);
  changed_.wait(lock, [this] { return !busy_ && !waiting_; });
}

void LatestJob::run() {
  std::unique_lock lock(mutex_);
  while (true) {
    changed_.wait(lock, [this] { return ending_ || waiting_; });
    if (ending_) return;
    const auto job = std::exchange(waiting_, nullptr);
    busy_ = true;
    lock.unlock();
    job();
    lock.lock();
    busy_ = false;
    changed_.notify_all();
  }
}

}  // namespace fitwright
