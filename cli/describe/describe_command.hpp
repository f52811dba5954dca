#pragma once
// The row of `flinch describe`.
#include "command.hpp"

namespace flinch::cli {

extern Command const describe_command;

}  // namespace flinch::cli
