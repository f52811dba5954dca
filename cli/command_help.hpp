#pragma once
// What several commands say of an option that they share.

namespace flinch::cli {

inline constexpr char const* pack_help =
    "A pack: its folder, or its entry file (the shipped pack otherwise)";
inline constexpr char const* practice_help =
    "Who the practice is and when it is open, in YAML (the user's own file otherwise)";
inline constexpr char const* case_help = "A case file in YAML; - is standard input";
inline constexpr char const* cases_help =
    "Case files in YAML, or folders of them (all *.yaml in each)";

}  // namespace flinch::cli
