#pragma once
// Files written whole or not at all.
#include <optional>
#include <string>
#include <string_view>

namespace flinch::cli {

/// Whether the folder's entry is made safe as well, or left to one `sync_folder` after many files.
enum class SyncFolder : bool { later, now };

/// Replaces the file by `bytes`: written beside it, made safe on the disk, renamed. What went
/// wrong, in words, or nothing.
[[nodiscard]] std::optional<std::string> replace_file(std::string const& path,
                                                      std::string_view bytes,
                                                      SyncFolder sync = SyncFolder::now);

/// A renamed file is only safe once its folder is on the disk.
void sync_folder(std::string const& folder);

}  // namespace flinch::cli
