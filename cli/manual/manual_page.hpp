#pragma once
// Manual pages, made from the descriptions of the commands.
#include <span>
#include <string>

#include "command.hpp"

namespace flinch::cli {

/// What stands at the edge of every page.
struct Edition {
  std::string version;
  std::string date;  ///< 2026-11-30
};

/// `flinch(1)` in the language of man(7): the program, and its commands in one list.
[[nodiscard]] std::string program_manual(std::span<Command const* const> commands,
                                         Edition const& edition);
/// `flinch-NAME(1)`: one command, its options and examples.
[[nodiscard]] std::string command_manual(Command const& command, Edition const& edition);

}  // namespace flinch::cli
