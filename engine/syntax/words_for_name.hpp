#pragma once
// Words that people read, written where a name is wanted.
#include <optional>

#include "syntax/grammar.hpp"

namespace flinch::syntax {

/// The words around a mistake in this stretch, and what kind of name was wanted there; nothing
/// where no name was. Whether anything is called so is known once all files are read.
[[nodiscard]] std::optional<WordsForName> words_for_name(Stretch const& stretch, Place error_at);

}  // namespace flinch::syntax
