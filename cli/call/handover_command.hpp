#pragma once
// The row of `flinch handover`.
#include "command.hpp"

namespace flinch::cli {

extern Command const handover_command;

}  // namespace flinch::cli
