#pragma once
// The one layout of a rule file, as docs/packs.md describes it: comments stay where they belong,
// and the meaning stays what it was.
//
//   auto const tidied = syntax::tidy(sources, file, {}, report);
//   if (tidied && syntax::says_the_same(sources[file].text(), *tidied)) write(*tidied);
#include <optional>
#include <string>
#include <string_view>

#include "flinch/syntax/parse.hpp"

namespace flinch::syntax {

/// Columns that a line with a list or a condition fills at most before it goes on in the next.
inline constexpr std::size_t tidy_width = 115;

/// The file in its one layout, with line feeds alone and no byte order mark; nothing when it has
/// errors, which are then in the report. Tidying what is tidy changes nothing.
[[nodiscard]] std::optional<std::string> tidy(SourceSet const& sources, FileId file,
                                              Limits const& limits, Report& report);

/// Whether two texts have equal syntax trees, places apart, and the same comments in the same
/// order; false when one of them has errors.
[[nodiscard]] bool says_the_same(std::string_view before, std::string_view after);

}  // namespace flinch::syntax
