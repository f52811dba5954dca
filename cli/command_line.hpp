#pragma once
// A command's description as the command line library takes it.
#include "command.hpp"

namespace CLI {
class App;
}

namespace flinch::cli {

/// Adds `row` to `app`. When the command line names it, its work is done and leaves its exit status
/// in `status`; both references must outlive `app`.
void add_command(CLI::App& app, Command const& row, Session const& session, Status& status);

}  // namespace flinch::cli
