#pragma once
// `flinch book`
#include "command.hpp"

namespace flinch::cli {

extern Command const book_command;

}  // namespace flinch::cli
