#include "batch/batch_input.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>

namespace flinch::cli {

InputFile::~InputFile() {
  if (is_ours_) ::close(file_);
}

std::optional<std::string> InputFile::open(std::string const& path) {
  if (path.empty() || path == "-") {
    file_ = STDIN_FILENO;
    name_ = "standard input";
    return std::nullopt;
  }
  name_ = path;
  file_ = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (file_ < 0) return name_ + ": " + std::strerror(errno);
  is_ours_ = true;
  struct stat status {};
  if (::fstat(file_, &status) != 0) return name_ + ": " + std::strerror(errno);
  if (S_ISDIR(status.st_mode)) return name_ + ": this is a folder";
  // A device may never end.
  if (!S_ISREG(status.st_mode) && !S_ISFIFO(status.st_mode))
    return name_ + ": this is no plain file and no pipe";
  return std::nullopt;
}

std::string InputFile::read_up_to(std::uint64_t bytes) {
  std::string out(static_cast<std::size_t>(bytes), '\0');
  std::size_t filled = 0;
  while (filled < out.size()) {
    auto const count = ::read(file_, out.data() + filled, out.size() - filled);
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) break;
    filled += static_cast<std::size_t>(count);
  }
  out.resize(filled);
  return out;
}

bool InputFile::pass_over(std::uint64_t bytes) {
  if (::lseek(file_, static_cast<off_t>(bytes), SEEK_CUR) >= 0) return true;
  constexpr std::uint64_t at_once = std::uint64_t{64} << 10U;
  while (bytes > 0) {
    auto const wanted = std::min(bytes, at_once);
    if (read_up_to(wanted).size() < wanted) return false;
    bytes -= wanted;
  }
  return true;
}

std::optional<std::string> InputFile::skip(Progress const& answered) {
  auto const tail_bytes = std::min(answered.tail_bytes, answered.input_bytes);
  if (!pass_over(answered.input_bytes - tail_bytes) ||
      fingerprint(read_up_to(tail_bytes)) != answered.tail)
    return name_ + ": not the input that the earlier run was reading; run without --resume";
  return std::nullopt;
}

std::optional<std::uint64_t> InputFile::size() const {
  struct stat status {};
  if (fstat(file_, &status) != 0 || !S_ISREG(status.st_mode) || status.st_size <= 0)
    return std::nullopt;
  return static_cast<std::uint64_t>(status.st_size);
}

}  // namespace flinch::cli
