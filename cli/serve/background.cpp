#include "serve/background.hpp"

#include <algorithm>

namespace flinch::cli::serve {

Background::Background(std::chrono::milliseconds rest, std::function<void(CheckResult const&)> done)
    : rest_(rest), done_(std::move(done)), thread_([this] { work(); }) {}

Background::~Background() {
  {
    std::lock_guard const lock(mutex_);
    is_ending_ = true;
    is_outdated_ = true;
  }
  changed_.notify_one();
  thread_.join();
}

void Background::submit(std::vector<CheckJob> jobs) {
  if (jobs.empty()) return;
  {
    std::lock_guard const lock(mutex_);
    for (auto& job : jobs) {
      if (running_ == job.entry) is_outdated_ = true;
      auto entry = job.entry;
      if (job.view->pack == nullptr)
        waiting_.erase(entry);
      else
        waiting_.insert_or_assign(std::move(entry), Waiting{std::move(job), Clock::now() + rest_});
    }
  }
  changed_.notify_one();
}

void Background::work() {
  std::unique_lock lock(mutex_);
  while (!is_ending_) {
    auto const next =
        std::min_element(waiting_.begin(), waiting_.end(),
                         [](auto const& a, auto const& b) { return a.second.due < b.second.due; });
    if (next == waiting_.end()) {
      changed_.wait(lock);
      continue;
    }
    if (auto const due = next->second.due; due > Clock::now()) {
      changed_.wait_until(lock, due);
      continue;  // it may have been replaced meanwhile
    }
    auto const job = std::move(next->second.job);
    waiting_.erase(next);
    running_ = job.entry;
    is_outdated_ = false;
    lock.unlock();
    auto const result = full_check(job, [this] { return is_outdated_.load(); });
    if (result) done_(*result);
    lock.lock();
    running_.clear();
  }
}

}  // namespace flinch::cli::serve
