#include "batch/batch_output.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>

#include "files/read_bytes.hpp"
#include "files/replace_file.hpp"

namespace flinch::cli {

OutputFile::~OutputFile() {
  if (file_ >= 0) ::close(file_);
}

std::optional<std::string> OutputFile::open(bool resume) {
  if (auto const why = why_no_file(path_)) return path_ + ": " + *why;
  file_ = ::open(partial().c_str(), O_WRONLY | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
  if (file_ < 0) return partial() + ": " + std::strerror(errno);
  if (::flock(file_, LOCK_EX | LOCK_NB) != 0) return partial() + ": another run is writing to it";
  if (resume) {
    if (auto const text = read_file(progress())) {
      auto const kept = read_progress(*text);
      struct stat status {};
      if (!kept || ::fstat(file_, &status) != 0)
        return progress() + ": this is not the progress of a run; run without --resume";
      // Less than was promised: the partial file is not the one that the progress is about.
      if (static_cast<std::uint64_t>(status.st_size) < kept->output_bytes)
        return partial() + ": shorter than its progress says; run without --resume";
      begun_ = *kept;
    }
  } else {
    // The progress of an earlier run would be wrong about what is written from now on.
    ::unlink(progress().c_str());
  }
  auto const size = static_cast<off_t>(begun_.output_bytes);
  if (::ftruncate(file_, size) != 0 || ::lseek(file_, size, SEEK_SET) != size)
    return partial() + ": " + std::strerror(errno);
  return std::nullopt;
}

std::optional<std::string> OutputFile::write(std::string_view bytes) {
  while (!bytes.empty()) {
    auto const written = ::write(file_, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return partial() + ": " + std::strerror(errno);
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return std::nullopt;
}

std::optional<std::string> OutputFile::keep(Progress const& so_far) {
  if (::fdatasync(file_) != 0) return partial() + ": " + std::strerror(errno);
  if (auto const why = replace_file(progress(), progress_text(so_far)))
    return progress() + ": " + *why;
  return std::nullopt;
}

std::optional<std::string> OutputFile::finish() {
  // The progress goes first: without it a partial file is only begun anew. The other way round, a
  // run killed in between would leave a progress that belongs to nothing.
  if (::fsync(file_) != 0) return partial() + ": " + std::strerror(errno);
  ::unlink(progress().c_str());
  remove_remains(progress());
  if (std::rename(partial().c_str(), path_.c_str()) != 0)
    return path_ + ": " + std::strerror(errno);
  force_folder(path_);
  return std::nullopt;
}

}  // namespace flinch::cli
