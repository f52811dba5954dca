#pragma once
#include "command.hpp"

namespace flinch::cli {

extern Command const share_command;

}  // namespace flinch::cli
