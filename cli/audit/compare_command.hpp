#pragma once
// The row of `flinch compare`.
#include "command.hpp"

namespace flinch::cli {

extern Command const compare_command;

}  // namespace flinch::cli
