#include "files/replace_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

namespace flinch::cli {
namespace {

constexpr std::string_view beside = ".new-";

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

NewFile create_beside(std::string const& path, ::mode_t mode) {
  constexpr int tries = 1000;
  NewFile out;
  for (int i = 0; i < tries; ++i) {
    out.path = fmt::format("{}{}{}-{}", path, beside, ::getpid(), i);
    out.file = ::open(out.path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, mode);
    if (out.file >= 0 || errno != EEXIST) break;
  }
  return out;
}

void force_folder(std::string const& path) {
  int const folder = ::open(folder_of(path).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (folder < 0) return;
  ::fsync(folder);
  ::close(folder);
}

std::optional<std::string> why_no_file(std::string const& path) {
  if (path.empty()) return "the name of a file is expected";
  if (path == "-") return "`-` is no file here; for a file of that name write ./-";
  struct stat status {};
  if (::stat(path.c_str(), &status) == 0) {
    if (S_ISDIR(status.st_mode)) return "this is a folder";
    if (!S_ISREG(status.st_mode)) return "this is no regular file";
    return std::nullopt;
  }
  int const trouble = errno;
  bool const is_link = ::lstat(path.c_str(), &status) == 0 && S_ISLNK(status.st_mode);
  if (is_link) return "this link leads nowhere";
  return trouble == ENOENT ? std::nullopt
                           : std::optional<std::string>(std::string(std::strerror(trouble)));
}

void remove_remains(std::string const& path) {
  std::filesystem::path const whole(path);
  auto const prefix = whole.filename().string() + std::string(beside);
  std::error_code failed;
  for (std::filesystem::directory_iterator entry(folder_of(path), failed), end;
       !failed && entry != end; entry.increment(failed))
    if (entry->path().filename().string().starts_with(prefix)) ::unlink(entry->path().c_str());
}

std::optional<std::string> replace_file(std::string const& path, std::string_view bytes,
                                        ForceFolder force, Access access) {
  if (auto why = why_no_file(path)) return why;
  struct stat before {};
  bool const is_there = ::stat(path.c_str(), &before) == 0;
  if (!is_there && access == Access::as_before) return std::strerror(errno);
  std::error_code failed;
  auto const place =
      is_there ? std::filesystem::canonical(path, failed).string() : std::string(path);
  if (failed) return failed.message();
  auto const fresh = create_beside(place, access == Access::as_usual ? 0666 : 0600);
  if (fresh.file < 0) return std::strerror(errno);
  bool const is_written = (!is_there || take_over(fresh.file, before)) &&
                          write_all(fresh.file, bytes) && ::fsync(fresh.file) == 0;
  int const trouble = errno;
  if (::close(fresh.file) != 0 || !is_written ||
      std::rename(fresh.path.c_str(), place.c_str()) != 0) {
    std::string const why = std::strerror(is_written ? errno : trouble);
    ::unlink(fresh.path.c_str());
    return why;
  }
  if (force == ForceFolder::now) force_folder(place);
  return std::nullopt;
}

}  // namespace flinch::cli
