#pragma once
// The row of `flinch review`.
#include "command.hpp"

namespace flinch::cli {

extern Command const review_command;

}  // namespace flinch::cli
