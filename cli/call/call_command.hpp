#pragma once
// The row of `flinch call`.
#include "command.hpp"

namespace flinch::cli {

extern Command const call_command;

}  // namespace flinch::cli
