#pragma once
// Options that name what is to be written.
#include <CLI/CLI.hpp>
#include <string>

namespace flinch::cli {

/// Refuses an empty name: a script's unset variable asks for something else than it says.
inline CLI::Validator const is_named(
    [](std::string& name) {
      return name.empty() ? std::string("the name of a file is expected") : std::string();
    },
    "");

}  // namespace flinch::cli
