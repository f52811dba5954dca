#pragma once
// Input cut into blocks of whole lines, however long it is.
#include <atomic>
#include <cstdint>
#include <optional>
#include <string>

namespace flinch::cli {

struct Block {
  std::uint64_t first_line = 1;  ///< number of its first line in the input
  std::uint64_t end = 0;         ///< offset in the input behind it
  std::string bytes;             ///< whole lines with their breaks; the last may lack its own
  std::uint64_t too_long = 0;    ///< instead of bytes: one line of so many, too long to be kept
};

/// Reads from a file descriptor that stays with the caller. A block goes out as soon as it holds a
/// whole line: the far end of a pipe may be waiting for its answer.
class LineBlocks {
 public:
  /// Begins at `offset` of the input, in its line `line` (from 1).
  LineBlocks(int file, std::size_t longest_line, std::uint64_t offset = 0, std::uint64_t line = 1)
      : file_(file), longest_line_(longest_line), end_(offset), line_(line) {}

  /// The next block; nothing at the end, or when it cannot be read any further, or once `stop` is
  /// set.
  [[nodiscard]] std::optional<Block> next(std::atomic<bool> const& stop);

  /// Why it could not be read, if so: a value of errno.
  [[nodiscard]] int trouble() const { return trouble_; }

 private:
  [[nodiscard]] std::size_t read_more(std::atomic<bool> const& stop);
  [[nodiscard]] std::optional<Block> end_of_long_line(bool at_end);
  [[nodiscard]] Block cut(std::size_t bytes);

  int file_;
  std::size_t longest_line_;
  std::uint64_t end_;  ///< of what has been handed out
  std::uint64_t line_;
  std::string held_;             ///< the beginning of a line, its break not yet seen
  std::uint64_t discarded_ = 0;  ///< of a line too long to be kept
  int trouble_ = 0;
};

}  // namespace flinch::cli
