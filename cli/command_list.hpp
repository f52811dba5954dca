#pragma once
// Every command of the program, in one list.
#include <span>

#include "command.hpp"

namespace flinch::cli {

/// In the order in which they are shown: desks first, then what explains, then what keeps a pack.
[[nodiscard]] std::span<Command const* const> all_commands();

}  // namespace flinch::cli
