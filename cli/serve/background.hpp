#pragma once
// Full checks on a thread of their own, once typing rests.
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <functional>
#include <map>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "serve/full_check.hpp"

namespace flinch::cli::serve {

/// How long nothing must have been typed: longer than between two keys of who types slowly, shorter
/// than one waits for an answer. A judgement.
inline constexpr std::chrono::milliseconds typing_rests{400};

class Background {
 public:
  /// `done` takes each result, on the thread of the checks.
  Background(std::chrono::milliseconds rest, std::function<void(CheckResult const&)> done);
  /// Ends the check that runs; none is done any more.
  ~Background();
  Background(Background const&) = delete;
  Background& operator=(Background const&) = delete;

  /// Of each pack the newest alone is checked: an older one that waits is dropped, one that runs is
  /// ended. One with errors only ends them.
  void submit(std::vector<CheckJob> jobs);

 private:
  using Clock = std::chrono::steady_clock;
  struct Waiting {
    CheckJob job;
    Clock::time_point due;
  };
  void work();

  std::chrono::milliseconds rest_;
  std::function<void(CheckResult const&)> done_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::map<std::string, Waiting> waiting_;  // by the pack's entry
  std::string running_;                     // the entry of the pack that is being checked, or empty
  std::atomic<bool> is_outdated_ = false;
  bool is_ending_ = false;
  std::thread thread_;  // last: it uses all the others
};

}  // namespace flinch::cli::serve
