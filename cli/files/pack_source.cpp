#include "files/pack_source.hpp"

#include <algorithm>
#include <filesystem>

#include "files/read_bytes.hpp"

namespace flinch::cli {

OpenedPack open_pack(std::string const& location) {
  OpenedPack opened;
  if (location.empty()) {
    auto const read = [](std::string_view path) -> std::optional<std::string> {
      auto const& files = embedded_pack();
      auto const found = std::find_if(files.begin(), files.end(),
                                      [&](EmbeddedFile const& file) { return file.path == path; });
      if (found == files.end()) return std::nullopt;
      return std::string(found->bytes);
    };
    opened.outcome = load_pack("pack.flinch", read, opened.sources);
    return opened;
  }
  std::error_code ignored;
  auto const entry =
      std::filesystem::is_directory(location, ignored)
          ? (std::filesystem::path(location) / "pack.flinch").lexically_normal().string()
          : location;
  auto const read = [](std::string_view path) -> FileRead {
    std::string const file(path);
    if (auto const why = why_unreadable(file)) return {std::nullopt, *why};
    return {read_file(file), "it may not be read"};
  };
  opened.outcome = load_pack(entry, read, opened.sources);
  return opened;
}

}  // namespace flinch::cli
