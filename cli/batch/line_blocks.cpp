#include "batch/line_blocks.hpp"

#include <poll.h>
#include <unistd.h>

#include <cerrno>
#include <string_view>
#include <utility>

namespace flinch::cli {
namespace {

constexpr std::size_t bytes_at_once = std::size_t{128} << 10U;
constexpr int look_up_ms = 200;  // how soon a reader that waits for input sees that it should stop

// Line by line, which is quicker than byte by byte.
std::uint64_t line_breaks(std::string_view bytes) {
  std::uint64_t count = 0;
  for (auto at = bytes.find('\n'); at != std::string_view::npos; at = bytes.find('\n', at + 1))
    ++count;
  return count;
}

}  // namespace

// Appends to what is held; 0 at the end.
std::size_t LineBlocks::read_more(std::atomic<bool> const& stop) {
  auto const before = held_.size();
  held_.resize(before + bytes_at_once);
  ssize_t count = 0;
  while (!stop) {
    pollfd waiting{file_, POLLIN, 0};
    auto const ready = ::poll(&waiting, 1, look_up_ms);
    if (ready == 0 || (ready < 0 && errno == EINTR)) continue;
    count = ::read(file_, held_.data() + before, bytes_at_once);
    if (count < 0 && (errno == EINTR || errno == EAGAIN)) continue;
    if (count < 0) trouble_ = errno;
    break;
  }
  auto const added = count > 0 ? static_cast<std::size_t>(count) : 0;
  held_.resize(before + added);
  return added;
}

Block LineBlocks::cut(std::size_t bytes) {
  Block block;
  block.first_line = line_;
  auto rest = held_.substr(bytes);
  held_.resize(bytes);
  block.bytes = std::exchange(held_, std::move(rest));
  end_ += bytes;
  block.end = end_;
  line_ += line_breaks(block.bytes);
  return block;
}

// The end of a line too long to be kept, if it is in sight.
std::optional<Block> LineBlocks::end_of_long_line(bool at_end) {
  auto const line_break = held_.find('\n');
  bool const has_break = line_break != std::string::npos;
  auto const here = has_break ? line_break : held_.size();
  discarded_ += here;
  held_.erase(0, here + (has_break ? 1 : 0));
  if (!has_break && !at_end) return std::nullopt;
  Block block;
  block.first_line = line_++;
  block.too_long = std::exchange(discarded_, 0);
  end_ += block.too_long + (has_break ? 1 : 0);
  block.end = end_;
  return block;
}

std::optional<Block> LineBlocks::next(std::atomic<bool> const& stop) {
  while (true) {
    if (discarded_ == 0) {
      if (auto const line_break = held_.rfind('\n'); line_break != std::string::npos)
        return cut(line_break + 1);
      if (held_.size() > longest_line_) {
        discarded_ = held_.size();
        held_.clear();
      }
    }
    bool const at_end = read_more(stop) == 0;
    if (stop || trouble_ != 0) return std::nullopt;
    if (discarded_ > 0) {
      if (auto block = end_of_long_line(at_end)) return block;
    } else if (at_end) {
      if (held_.empty()) return std::nullopt;
      return cut(held_.size());
    }
  }
}

}  // namespace flinch::cli
