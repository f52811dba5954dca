#include "files/journal.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>

#include "files/replace_file.hpp"
#include "files/state_folder.hpp"
#include "flinch/casefile/write_case.hpp"

namespace flinch::cli {
namespace {

// The case file itself is replaced at each answer, so that what is locked stands beside it.
struct Lock {
  int file = -1;
  bool is_taken = false;  ///< by another program; without it and without a file: not to be had
};

Lock lock(std::string const& path) {
  constexpr int tries = 10;
  for (int i = 0; i < tries; ++i) {
    int const file = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
    if (file < 0) return {};
    if (::flock(file, LOCK_EX | LOCK_NB) != 0) {
      ::close(file);
      return {-1, true};
    }
    // Whoever held it may have removed it between the opening and the lock.
    struct stat ours {};
    struct stat there {};
    if (::fstat(file, &ours) == 0 && ::stat(path.c_str(), &there) == 0 &&
        ours.st_ino == there.st_ino && ours.st_dev == there.st_dev)
      return {file, false};
    ::close(file);
  }
  return {-1, true};
}

bool exists(std::string const& path) {
  std::error_code trouble;
  return std::filesystem::exists(path, trouble);
}

}  // namespace

Journal::~Journal() {
  if (lock_ < 0) return;
  struct stat there {};
  // A file of that name that holds something is not ours.
  if (::fstat(lock_, &there) == 0 && there.st_size == 0) ::unlink(lock_path_.c_str());
  ::close(lock_);
}

std::unique_ptr<Journal> Journal::named(std::string path) {
  // By whatever links it is reached, it is one file.
  std::error_code trouble;
  auto const whole = std::filesystem::weakly_canonical(path, trouble);
  auto lock_path = (trouble ? path : whole.string()) + ".lock";
  auto const held = lock(lock_path);
  if (held.is_taken) return nullptr;
  return std::unique_ptr<Journal>(new Journal(std::move(path), std::move(lock_path), held.file));
}

std::unique_ptr<Journal> Journal::recovery(
    std::string_view desk, std::function<bool(std::string const& path)> const& is_wanted,
    int at_once) {
  auto const folder = state_folder();
  std::error_code trouble;
  if (!folder.empty()) std::filesystem::create_directories(folder, trouble);
  if (folder.empty() || trouble) return std::make_unique<Journal>();
  for (bool const left_behind : {true, false})
    for (int i = 1; i <= at_once; ++i) {
      auto path = fmt::format("{}/{}-{}.yaml", folder, desk, i);
      if (exists(path) != left_behind) continue;
      auto lock_path = path + ".lock";
      auto const held = lock(lock_path);
      if (held.file < 0) continue;
      auto journal = std::unique_ptr<Journal>(new Journal(path, std::move(lock_path), held.file));
      if (exists(path) == left_behind && (!left_behind || is_wanted(path))) return journal;
    }
  return std::make_unique<Journal>();
}

std::optional<std::string> Journal::write(Case const& patient, Pack const& pack) const {
  if (!keeps()) return std::nullopt;
  return replace_file(path_, write_case(patient, pack));
}

std::optional<std::string> Journal::write(std::string const& comment, Case const& patient,
                                          Pack const& pack) const {
  if (!keeps()) return "no folder for it could be made";
  return replace_file(path_, fmt::format("# {}\n{}", comment, write_case(patient, pack)));
}

void Journal::remove() const {
  if (keeps()) ::unlink(path_.c_str());
}

}  // namespace flinch::cli
