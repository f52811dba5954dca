#pragma once
// What options of several commands share.
#include <string>

#include "command.hpp"

namespace flinch::cli {

inline constexpr char const* pack_help =
    "A pack: its folder, or its entry file (the shipped pack otherwise)";
inline constexpr char const* case_help = "A case file in YAML; - is standard input";
inline constexpr char const* cases_help =
    "Case files in YAML, or folders of them (all *.yaml in each)";

/// `--pack`
[[nodiscard]] Option pack_option(std::string& pack);
/// `--practice`
[[nodiscard]] Option practice_option(std::string& practice);
/// Refuses an empty name of what is to be written: a script's unset variable asks for something
/// else than it says.
[[nodiscard]] std::string unnamed_file(std::string const& name);

}  // namespace flinch::cli
