#pragma once
// Files that are never half written.
#include <optional>
#include <string>
#include <string_view>

namespace flinch::cli {

/// Replaces the file at `path` by these bytes, or leaves it as it was: written beside it, forced to
/// the disk, then renamed. Only its owner may read what is written. Nothing when it went well,
/// otherwise why not.
[[nodiscard]] std::optional<std::string> replace_file(std::string const& path,
                                                      std::string_view bytes);

}  // namespace flinch::cli
