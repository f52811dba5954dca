#pragma once
// The row of `flinch serve`.
#include "command.hpp"

namespace flinch::cli {

extern Command const serve_command;

}  // namespace flinch::cli
