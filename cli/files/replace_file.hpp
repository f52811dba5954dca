#pragma once
// Files that are never half written.
#include <sys/types.h>

#include <optional>
#include <string>
#include <string_view>

namespace flinch::cli {

/// Whether the new name is forced to the disk as well, or left to one `force_folder` after many.
enum class ForceFolder : bool { later, now };

/// Who may read a file that is new. One that is replaced keeps its owner, group and mode.
enum class Access : unsigned char {
  owner_alone,  ///< what is said of a patient and its keeper
  as_usual,     ///< pages to hand over or to serve: as the umask has it
  as_before     ///< there must be a file to replace
};

/// Replaces the file at `path` by these bytes, or leaves it as it was: written beside it under a
/// name that nobody has, forced to the disk, then renamed. A symbolic link is followed. Nothing
/// when it went well, otherwise why not: also what is no regular file is refused, and the name `-`.
[[nodiscard]] std::optional<std::string> replace_file(std::string const& path,
                                                      std::string_view bytes,
                                                      ForceFolder force = ForceFolder::now,
                                                      Access access = Access::owner_alone);

/// A file that is new, open to be written.
struct NewFile {
  std::string path;
  int file = -1;  ///< negative: none could be made, and `errno` says why
};

/// A file beside `path` under a name that nobody had, so that nobody else's is touched. Whoever
/// asks closes it, and renames or removes it.
[[nodiscard]] NewFile create_beside(std::string const& path, ::mode_t mode);

/// Why a file may not be written under this name, when that can be told without trying.
[[nodiscard]] std::optional<std::string> why_no_file(std::string const& path);

/// Removes what writing `path` left beside it when it was killed. Only for who knows that no other
/// run writes there.
void remove_remains(std::string const& path);

/// Forces the folder of `path` to the disk: a new name stands only then. Not every file system can
/// do that; then the name stands as it is.
void force_folder(std::string const& path);

}  // namespace flinch::cli
