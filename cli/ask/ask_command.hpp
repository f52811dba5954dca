#pragma once
// The row of `flinch ask`.
#include "command.hpp"

namespace flinch::cli {

extern Command const ask_command;

}  // namespace flinch::cli
