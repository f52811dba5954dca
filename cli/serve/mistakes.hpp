#pragma once
// Mistakes and warnings as an editor is told of them, and what it may write instead.
#include <string_view>

#include "serve/pack_files.hpp"
#include "serve/protocol.hpp"

namespace flinch::cli::serve {

inline constexpr std::size_t most_mistakes = 500;  ///< shown of one file

/// A `Diagnostic` of the protocol.
[[nodiscard]] Json mistake(Diagnostic const& d, std::string_view code, PackView const& view);

/// The `CodeAction`s for the errors of the file that touch the range from one place to another:
/// each writes the name that was probably meant. `uri` is the file's, as the editor writes it.
[[nodiscard]] Json quick_fixes(PackView const& view, std::string const& path,
                               std::string const& uri, std::size_t begin, std::size_t end);

}  // namespace flinch::cli::serve
