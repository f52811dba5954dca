#include "files/state_folder.hpp"

#include <cstdlib>

namespace flinch::cli {
namespace {

std::string environment(char const* name) {
  char const* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

}  // namespace

// The XDG Base Directory Specification: relative paths are to be ignored.
std::string state_folder() {
  auto const state = environment("XDG_STATE_HOME");
  if (state.starts_with('/')) return state + "/flinch";
  auto const home = environment("HOME");
  return home.starts_with('/') ? home + "/.local/state/flinch" : "";
}

}  // namespace flinch::cli
