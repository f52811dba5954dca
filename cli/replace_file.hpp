#pragma once
// Files that are never half written.
#include <optional>
#include <string>
#include <string_view>

namespace flinch::cli {

/// Whether the new name is forced to the disk as well, or left to one `force_folder` after many.
enum class ForceFolder : bool { later, now };

/// Who may read what is written: its owner alone, or whoever could read the file that it replaces.
enum class Access : bool { owner_alone, as_before };

/// Replaces the file at `path` by these bytes, or leaves it as it was: written beside it, forced to
/// the disk, then renamed. Nothing when it went well, otherwise why not; with `Access::as_before`
/// that includes a file that is not there.
[[nodiscard]] std::optional<std::string> replace_file(std::string const& path,
                                                      std::string_view bytes,
                                                      ForceFolder force = ForceFolder::now,
                                                      Access access = Access::owner_alone);

/// Forces the folder of `path` to the disk: a new name stands only then. Not every file system can
/// do that; then the name stands as it is.
void force_folder(std::string const& path);

}  // namespace flinch::cli
