#include "files/pack_source.hpp"

#include <filesystem>

#include "files/prepared_pack.hpp"
#include "files/read_bytes.hpp"

namespace flinch::cli {

OpenedPack open_pack(std::string const& location) {
  OpenedPack opened;
  if (location.empty()) {
    auto const& embedded = embedded_pack();
    for (auto const& file : embedded.files)
      opened.sources.add(std::string(file.path), LastingText{file.bytes});
    opened.outcome.value = prepared_pack(embedded.prepared);
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
  auto const list = [&](std::string_view) {
    std::vector<std::string> files;
    std::error_code trouble;
    auto const folder = std::filesystem::path(entry).parent_path();
    std::filesystem::directory_iterator at(folder.empty() ? "." : folder, trouble);
    for (; !trouble && at != std::filesystem::directory_iterator(); at.increment(trouble))
      if (at->path().extension() == ".flinch")
        files.push_back((folder / at->path().filename()).string());
    return files;
  };
  opened.outcome = load_pack(entry, read, opened.sources, {}, list);
  return opened;
}

}  // namespace flinch::cli
