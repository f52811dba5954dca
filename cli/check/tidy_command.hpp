#pragma once
// The row of `flinch tidy`.
#include "command.hpp"

namespace flinch::cli {

extern Command const tidy_command;

}  // namespace flinch::cli
