#pragma once
// The row of `flinch care`.
#include "command.hpp"

namespace flinch::cli {

extern Command const care_command;

}  // namespace flinch::cli
