#include "files/pack_source.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace flinch::cli {

std::optional<std::string> read_file(std::string const& path) {
  std::error_code ignored;
  if (std::filesystem::is_directory(path, ignored)) return std::nullopt;
  std::ifstream file(path, std::ios::binary);
  if (!file) return std::nullopt;
  return std::string(std::istreambuf_iterator<char>(file), {});
}

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
  opened.outcome = load_pack(
      entry, [](std::string_view path) { return read_file(std::string(path)); }, opened.sources);
  return opened;
}

}  // namespace flinch::cli
