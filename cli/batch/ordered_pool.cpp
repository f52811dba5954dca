#include "batch/ordered_pool.hpp"

#include <condition_variable>
#include <mutex>
#include <thread>
#include <vector>

namespace flinch::cli {
namespace {

// A ring of slots: block number i lies in slot i modulo their number, until it has been written.
class Ring {
 public:
  explicit Ring(std::size_t slots) : slots_(slots) {}

  // For the reader: waits for room. False when all should stop.
  bool put(Block block) {
    std::unique_lock lock(mutex_);
    room_.wait(lock, [&] { return stop_ || read_ - written_ < slots_.size(); });
    if (stop_) return false;
    slots_[read_ % slots_.size()] = {std::move(block), {}, false};
    ++read_;
    work_.notify_one();
    return true;
  }
  void end() {
    std::lock_guard const lock(mutex_);
    has_ended_ = true;
    work_.notify_all();
    done_.notify_all();
  }

  // For the workers: the number of a block of theirs alone, or nothing when no more will come.
  std::optional<std::uint64_t> take() {
    std::unique_lock lock(mutex_);
    work_.wait(lock, [&] { return stop_ || taken_ < read_ || has_ended_; });
    if (stop_ || taken_ == read_) return std::nullopt;
    return taken_++;
  }
  Block const& block(std::uint64_t number) const { return slots_[number % slots_.size()].block; }
  void finish(std::uint64_t number, BlockResult result) {
    std::lock_guard const lock(mutex_);
    auto& slot = slots_[number % slots_.size()];
    slot.result = std::move(result);
    slot.is_done = true;
    if (number == written_) done_.notify_one();
  }

  // For the writer: the oldest block when it is done, or nothing at the end.
  struct Slot {
    Block block;
    BlockResult result;
    bool is_done = false;
  };
  Slot const* oldest() {
    std::unique_lock lock(mutex_);
    auto const is_done = [&] {
      return written_ < read_ && slots_[written_ % slots_.size()].is_done;
    };
    done_.wait(lock, [&] { return is_done() || (has_ended_ && written_ == read_); });
    return is_done() ? &slots_[written_ % slots_.size()] : nullptr;
  }
  void release() {
    std::lock_guard const lock(mutex_);
    slots_[written_ % slots_.size()] = {};
    ++written_;
    room_.notify_one();
  }
  void stop() {
    std::lock_guard const lock(mutex_);
    stop_ = true;
    room_.notify_all();
    work_.notify_all();
  }
  [[nodiscard]] std::atomic<bool> const& stopped() const { return stop_; }

 private:
  std::mutex mutex_;
  std::condition_variable room_;
  std::condition_variable work_;
  std::condition_variable done_;
  std::vector<Slot> slots_;
  std::uint64_t read_ = 0;
  std::uint64_t taken_ = 0;
  std::uint64_t written_ = 0;
  bool has_ended_ = false;
  std::atomic<bool> stop_ = false;
};

}  // namespace

bool run_ordered(PoolWork const& work, std::size_t threads) {
  Ring ring(2 * threads + 2);
  std::vector<std::thread> pool;
  pool.emplace_back([&] {
    while (auto block = work.read(ring.stopped()))
      if (!ring.put(std::move(*block))) break;
    ring.end();
  });
  for (std::size_t i = 0; i < threads; ++i)
    pool.emplace_back([&] {
      auto const worker = work.make_worker();
      while (auto const number = ring.take()) ring.finish(*number, worker(ring.block(*number)));
    });
  bool all_written = true;
  while (auto const* slot = ring.oldest()) {
    if (!work.write(slot->block, slot->result)) {
      all_written = false;
      ring.stop();
      break;
    }
    ring.release();
  }
  for (auto& thread : pool) thread.join();
  return all_written;
}

}  // namespace flinch::cli
