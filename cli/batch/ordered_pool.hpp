#pragma once
// Blocks through many hands, out in the order in which they came in, a bounded number at a time.
#include <atomic>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "batch/line_blocks.hpp"

namespace flinch::cli {

/// What became of a block.
struct BlockResult {
  std::string out;
  std::uint64_t lines = 0;  ///< that were answered, well or badly
  std::uint64_t bad = 0;
};

struct PoolWork {
  /// The next block; called by one thread only. It should give up soon once `stop` is set.
  std::function<std::optional<Block>(std::atomic<bool> const& stop)> read;
  /// Makes the work of one thread, with memory of its own.
  std::function<std::function<BlockResult(Block const&)>()> make_worker;
  /// Takes the results in order, in the caller's thread; false stops everything.
  std::function<bool(Block const&, BlockResult const&)> write;
};

/// Runs until the input ends or `write` refuses; whether all was written.
[[nodiscard]] bool run_ordered(PoolWork const& work, std::size_t threads);

}  // namespace flinch::cli
