#include "write_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>

namespace flinch::cli {
namespace {

bool write_all(int file, std::string_view bytes) {
  while (!bytes.empty()) {
    auto const written = ::write(file, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

}  // namespace

void sync_folder(std::string const& folder) {
  int const handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (handle < 0) return;
  ::fsync(handle);
  ::close(handle);
}

std::optional<std::string> replace_file(std::string const& path, std::string_view bytes,
                                        SyncFolder sync) {
  auto beside = path + ".XXXXXX";
  int const file = ::mkstemp(beside.data());
  if (file < 0) return std::strerror(errno);
  constexpr mode_t readable_by_all = 0644;
  bool const is_written =
      write_all(file, bytes) && ::fchmod(file, readable_by_all) == 0 && ::fsync(file) == 0;
  auto failure = errno;
  ::close(file);
  if (is_written && std::rename(beside.c_str(), path.c_str()) == 0) {
    auto const folder = std::filesystem::path(path).parent_path().string();
    if (sync == SyncFolder::now) sync_folder(folder.empty() ? "." : folder);
    return std::nullopt;
  }
  if (is_written) failure = errno;
  ::unlink(beside.c_str());
  return std::strerror(failure);
}

}  // namespace flinch::cli
