#pragma once
// The row of `flinch batch`.
#include "command.hpp"

namespace flinch::cli {

extern Command const batch_command;

}  // namespace flinch::cli
