#include "files/pack_source.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <ostream>
#include <utility>
#include <vector>

#include "files/prepared_pack.hpp"
#include "files/read_bytes.hpp"
#include "flinch/text/display.hpp"
#include "flinch/text/nearest.hpp"

namespace flinch::cli {

namespace {

// Of folders that hold a pack, and rule files, beside the one that is not there.
std::string help_for_missing(std::string const& location) {
  auto const wanted = std::filesystem::path(location).lexically_normal();
  auto const last = wanted.has_filename() ? wanted.filename() : wanted.parent_path().filename();
  auto folder = wanted.has_filename() ? wanted.parent_path() : wanted.parent_path().parent_path();
  std::vector<std::string> names;
  std::error_code trouble;
  std::filesystem::directory_iterator at(folder.empty() ? "." : folder, trouble);
  for (; !trouble && at != std::filesystem::directory_iterator(); at.increment(trouble)) {
    std::error_code ignored;
    if (at->path().extension() == ".flinch" ||
        std::filesystem::exists(at->path() / "pack.flinch", ignored))
      names.push_back(at->path().filename().string());
  }
  std::sort(names.begin(), names.end());
  auto const near =
      nearest(last.string(), std::vector<std::string_view>(names.begin(), names.end()));
  return near ? fmt::format("did you mean `{}`?", inert((folder / *near).string()))
              : "a pack is a folder that holds `pack.flinch`, or that file";
}

}  // namespace

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
      if (at->path().extension() == ".flinch" || at->path().extension() == ".yaml")
        files.push_back((folder / at->path().filename()).string());
    return files;
  };
  opened.outcome = load_pack(entry, read, opened.sources, {}, list);
  if (!std::filesystem::exists(location, ignored) && !opened.outcome.diagnostics.empty())
    opened.outcome.diagnostics.front().notes.push_back({help_for_missing(location), {}});
  return opened;
}

std::optional<SoundPack> open_sound_pack(std::string const& location, std::ostream& err) {
  auto opened = open_pack(location);
  if (opened.outcome) return SoundPack{std::move(opened.sources), *opened.outcome.value};
  err << render(opened.outcome.diagnostics, opened.sources);
  return std::nullopt;
}

}  // namespace flinch::cli
