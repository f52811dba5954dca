#pragma once
// The row of `flinch read`.
#include "command.hpp"

namespace flinch::cli {

extern Command const read_command;

}  // namespace flinch::cli
