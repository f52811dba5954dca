#pragma once
// The row of `flinch audit`.
#include "command.hpp"

namespace flinch::cli {

extern Command const audit_command;

}  // namespace flinch::cli
