#pragma once
// The row of `flinch check`.
#include "command.hpp"

namespace flinch::cli {

extern Command const check_command;

}  // namespace flinch::cli
