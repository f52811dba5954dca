#pragma once
// Where a pack comes from: the one inside the program, or a folder.
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/model/load.hpp"

namespace flinch::cli {

struct EmbeddedFile {
  std::string_view path;
  std::string_view bytes;
};

/// The files of the shipped pack, as they were when the program was built.
[[nodiscard]] std::vector<EmbeddedFile> const& embedded_pack();

struct OpenedPack {
  SourceSet sources;
  Outcome<std::shared_ptr<Pack const>> outcome;
};

/// Loads the pack in `location`: a folder with a `pack.flinch`, or such a file itself; empty for
/// the shipped pack.
[[nodiscard]] OpenedPack open_pack(std::string const& location);

}  // namespace flinch::cli
