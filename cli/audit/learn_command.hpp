#pragma once
// The row of `flinch learn`.
#include "command.hpp"

namespace flinch::cli {

extern Command const learn_command;

}  // namespace flinch::cli
