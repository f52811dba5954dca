#pragma once
// Commands that are named to the user: whole, so that they can be typed as they stand.
#include <string>
#include <string_view>
#include <vector>

namespace flinch::cli {

/// What the present command was given and a further one must be given as well.
struct GoesOnWith {
  std::string pack;      ///< folder or file; empty: the shipped pack
  std::string practice;  ///< its file; empty: the user's own
};

/// `flinch care patient.yaml --pack rabbits`: the command, its arguments, then what it goes on
/// with, of that what the command takes. Quoted for a shell where needed, harmless on a terminal.
[[nodiscard]] std::string named_command(std::string_view command,
                                        std::vector<std::string> const& arguments,
                                        GoesOnWith const& on);

}  // namespace flinch::cli
