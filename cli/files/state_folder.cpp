#include "files/state_folder.hpp"

#include "files/environment.hpp"

namespace flinch::cli {

std::string state_folder() {
  auto const state = folder_of_environment("XDG_STATE_HOME");
  if (!state.empty()) return state + "/flinch";
  auto const home = folder_of_environment("HOME");
  return home.empty() ? "" : home + "/.local/state/flinch";
}

}  // namespace flinch::cli
