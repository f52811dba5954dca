#pragma once
// The row of `flinch assess`.
#include "command.hpp"

namespace flinch::cli {

extern Command const assess_command;

}  // namespace flinch::cli
