#pragma once
// Files written whole or not at all.
#include <optional>
#include <string>
#include <string_view>

namespace flinch::cli {

/// Replaces the file by `bytes`: written beside it, made safe on the disk, renamed. What went
/// wrong, in words, or nothing.
[[nodiscard]] std::optional<std::string> replace_file(std::string const& path,
                                                      std::string_view bytes);

}  // namespace flinch::cli
