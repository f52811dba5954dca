#pragma once
// The row of `flinch report`.
#include "command.hpp"

namespace flinch::cli {

extern Command const report_command;

}  // namespace flinch::cli
