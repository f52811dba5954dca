#pragma once
// The row of `flinch complete`.
#include "command.hpp"

namespace flinch::cli {

extern Command const complete_command;

}  // namespace flinch::cli
