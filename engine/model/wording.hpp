#pragma once
// Words for people, made from the names of the language.
#include <optional>
#include <string>
#include <string_view>

#include "flinch/model/pack.hpp"
#include "flinch/syntax/tree.hpp"

namespace flinch {

/// `front_leg` as "front leg".
[[nodiscard]] std::string spoken(std::string name);

/// The capitals A to Z made small.
[[nodiscard]] std::string in_small_letters(std::string_view text);

/// What the text says; nothing where there is none.
[[nodiscard]] std::string text_or_empty(std::optional<syntax::Text> const& text);

/// The title that a statement gives, or its name spoken.
[[nodiscard]] std::string title_or_name(syntax::Head const& head);

/// The title of a sign's floor: "Blood in what it coughs up", "Appetite: less than usual or worse",
/// "Temperature: 41 C or more", "Tender to touch: left elbow".
[[nodiscard]] std::string floor_title(Pack const& pack, Test const& test);

}  // namespace flinch
