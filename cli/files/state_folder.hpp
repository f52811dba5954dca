#pragma once
// Where the program keeps what is its own from one run to the next.
#include <string>

namespace flinch::cli {

/// $XDG_STATE_HOME/flinch, or ~/.local/state/flinch; empty where neither is known. It need not be
/// there.
[[nodiscard]] std::string state_folder();

}  // namespace flinch::cli
