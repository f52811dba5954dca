#pragma once
// Loading a pack: all its files, all its mistakes, in one go.
//
//   SourceSet sources;
//   auto pack = load_pack("pack.flinch", read_file, sources);
//   if (!pack) std::cerr << render(pack.diagnostics, sources);
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/model/pack.hpp"
#include "flinch/syntax/parse.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch {

/// The bytes of a file, or why there are none, for the one who asked for them.
struct FileRead {
  FileRead(std::optional<std::string> its_bytes, std::string reason = "there is no such file")
      : bytes(std::move(its_bytes)), why_not(std::move(reason)) {}
  std::optional<std::string> bytes;
  std::string why_not;
};

/// Reads a file of the pack, by its path relative to the pack's folder.
using ReadFile = std::function<FileRead(std::string_view path)>;

/// The files of rules (`.flinch`) and of data (`.yaml`) that lie in the folder of the pack's entry,
/// which may be `""`, by paths of the same kind.
using ListFiles = std::function<std::vector<std::string>(std::string_view folder)>;

struct LoadLimits {
  syntax::Limits file;
  std::size_t files = 1000;  ///< of one pack
  std::size_t include_depth = 32;
};

/// Reads `entry` and what it includes, and resolves it. Diagnostics come in source order; a pack
/// with errors has no value. Texts are added to `sources`. With `list`, the folder of a
/// `pack.flinch` is searched for rule files that nothing includes.
[[nodiscard]] Outcome<std::shared_ptr<Pack const>> load_pack(std::string_view entry,
                                                             ReadFile const& read,
                                                             SourceSet& sources,
                                                             LoadLimits const& limits = {},
                                                             ListFiles const& list = {});

}  // namespace flinch
