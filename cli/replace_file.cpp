#include "replace_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>

namespace flinch::cli {
namespace {

bool write_all(int file, std::string_view bytes) {
  while (!bytes.empty()) {
    auto const written = ::write(file, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

// Owner and group before the mode: changing them takes away set-id bits. Whoever may not give a
// file away keeps it; then only what its former group could do is lost, never more allowed.
bool take_over(int file, struct stat const& before) {
  bool const is_same_owner = ::fchown(file, before.st_uid, before.st_gid) == 0 ||
                             (before.st_uid == ::geteuid() && before.st_gid == ::getegid());
  ::mode_t const others = is_same_owner ? 0777 : 0707;
  return ::fchmod(file, before.st_mode & others) == 0;
}

std::string folder_of(std::string const& path) {
  auto const slash = path.rfind('/');
  return slash == std::string::npos ? "." : path.substr(0, slash + 1);
}

}  // namespace

void force_folder(std::string const& path) {
  int const folder = ::open(folder_of(path).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (folder < 0) return;
  ::fsync(folder);
  ::close(folder);
}

std::optional<std::string> replace_file(std::string const& path, std::string_view bytes,
                                        ForceFolder force, Access access) {
  struct stat before {};
  if (access == Access::as_before && ::stat(path.c_str(), &before) != 0)
    return std::strerror(errno);
  auto const beside = path + ".new";
  int const file =
      ::open(beside.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, 0600);
  if (file < 0) return std::strerror(errno);
  bool const is_written = (access == Access::owner_alone || take_over(file, before)) &&
                          write_all(file, bytes) && ::fsync(file) == 0;
  int const trouble = errno;
  if (::close(file) != 0 || !is_written || std::rename(beside.c_str(), path.c_str()) != 0) {
    std::string const why = std::strerror(is_written ? errno : trouble);
    ::unlink(beside.c_str());
    return why;
  }
  if (force == ForceFolder::now) force_folder(path);
  return std::nullopt;
}

}  // namespace flinch::cli
