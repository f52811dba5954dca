#pragma once
#include "command.hpp"

namespace flinch::cli {

extern Command const take_command;

}  // namespace flinch::cli
