#pragma once
// The row of `flinch signs`.
#include "command.hpp"

namespace flinch::cli {

extern Command const signs_command;

}  // namespace flinch::cli
