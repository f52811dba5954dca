#pragma once
// Words for people, made from the names of the language.
#include <string>

#include "flinch/syntax/tree.hpp"

namespace flinch {

/// `front_leg` as "front leg".
[[nodiscard]] std::string spoken(std::string name);

/// The title that a statement gives, or its name spoken.
[[nodiscard]] std::string title_or_name(syntax::Head const& head);

}  // namespace flinch
