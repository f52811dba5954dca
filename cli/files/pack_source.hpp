#pragma once
// Where a pack comes from: the one inside the program, or a folder.
#include <iosfwd>
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

struct EmbeddedPack {
  std::vector<EmbeddedFile> files;  ///< in the order in which they were read
  std::string_view prepared;        ///< see `prepared_pack`
};

/// The shipped pack, as it was when the program was built.
[[nodiscard]] EmbeddedPack const& embedded_pack();

struct OpenedPack {
  SourceSet sources;
  Outcome<std::shared_ptr<Pack const>> outcome;
};

/// Loads the pack in `location`: a folder with a `pack.flinch`, or such a file itself; empty for
/// the shipped pack.
[[nodiscard]] OpenedPack open_pack(std::string const& location);

/// A pack without mistakes.
struct SoundPack {
  SourceSet sources;
  std::shared_ptr<Pack const> pack;
};

/// The same; nothing when it has mistakes, which go to `err`. Warnings are for `flinch check`.
[[nodiscard]] std::optional<SoundPack> open_sound_pack(std::string const& location,
                                                       std::ostream& err);

}  // namespace flinch::cli
