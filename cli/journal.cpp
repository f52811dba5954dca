#include "ask/ask_journal.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>

#include "flinch/casefile/write_case.hpp"
#include "replace_file.hpp"

namespace flinch::cli {
namespace {

std::string environment(char const* name) {
  char const* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

// The XDG Base Directory Specification: relative paths are to be ignored.
std::string state_folder() {
  auto const state = environment("XDG_STATE_HOME");
  if (state.starts_with('/')) return state + "/flinch";
  auto const home = environment("HOME");
  return home.starts_with('/') ? home + "/.local/state/flinch" : "";
}

}  // namespace

Journal::~Journal() {
  if (lock_ >= 0) ::close(lock_);
}

std::unique_ptr<Journal> Journal::recovery() {
  auto const folder = state_folder();
  std::error_code trouble;
  if (!folder.empty()) std::filesystem::create_directories(folder, trouble);
  if (folder.empty() || trouble) return std::make_unique<Journal>("");
  constexpr int interviews_at_once = 20;
  for (int i = 1; i <= interviews_at_once; ++i) {
    auto const path = fmt::format("{}/ask-{}.yaml", folder, i);
    auto const lock_path = path + ".lock";
    int const lock = ::open(lock_path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
    if (lock < 0) return std::make_unique<Journal>("");
    if (::flock(lock, LOCK_EX | LOCK_NB) == 0)
      return std::unique_ptr<Journal>(new Journal(path, lock));
    ::close(lock);
  }
  return std::make_unique<Journal>("");
}

std::optional<std::string> Journal::write(Case const& dog, Pack const& pack) const {
  if (!keeps()) return std::nullopt;
  return replace_file(path_, write_case(dog, pack));
}

void Journal::close() {
  if (lock_ >= 0) ::unlink(path_.c_str());
}

}  // namespace flinch::cli
