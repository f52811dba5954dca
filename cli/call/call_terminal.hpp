#pragma once
// The full screen of a call: curses in, curses out, nothing else.
#include <optional>
#include <string>

#include "call/call_model.hpp"
#include "desk/case_keeper.hpp"
#include "look/page.hpp"

namespace flinch::cli {

/// Runs the call until the user leaves or the terminal goes away. Nothing when it ran, otherwise
/// one line that says why this terminal cannot show it.
[[nodiscard]] std::optional<std::string> run_on_terminal(CallModel& call, Look const& look,
                                                         CaseKeeper const& keeper);

}  // namespace flinch::cli
