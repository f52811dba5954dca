#pragma once
// What the program is told by its surroundings.
#include <string>

namespace flinch::cli {

/// A variable of the environment; empty where it is not set.
[[nodiscard]] std::string environment(char const* name);

/// The same of one that names a folder. The XDG Base Directory Specification: relative paths are to
/// be ignored, and so are empty here.
[[nodiscard]] std::string folder_of_environment(char const* name);

}  // namespace flinch::cli
