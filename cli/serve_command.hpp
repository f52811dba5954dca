#pragma once
// The command that an editor starts.
#include "commands.hpp"

namespace flinch::cli {

/// The Language Server Protocol over standard input and output, until the editor ends it.
[[nodiscard]] Status serve_editor(Session const& session);

}  // namespace flinch::cli
