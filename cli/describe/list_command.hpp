#pragma once
// The row of `flinch list`.
#include "command.hpp"

namespace flinch::cli {

extern Command const list_command;

}  // namespace flinch::cli
