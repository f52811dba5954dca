#pragma once
// What a name stands for, in words: what it means, what it weighs, where that comes from.
#include <cstddef>
#include <optional>
#include <string>

#include "serve/pack_files.hpp"

namespace flinch::cli::serve {

enum class Markup : bool { plain, markdown };

struct HoverText {
  std::string text;
  Span span;  ///< of the name
};

/// The text for the name at the byte offset; nothing where there is no name that the pack knows.
/// While the pack has errors it is the statement that defines the name.
[[nodiscard]] std::optional<HoverText> hover(PackView const& view, PackFile const& file,
                                             std::size_t offset, Markup markup);

}  // namespace flinch::cli::serve
