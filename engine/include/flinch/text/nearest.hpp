#pragma once
// The known word nearest to a misspelt one.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace flinch {

/// Fewest insertions, deletions, replacements and swaps of neighbours that turn `a` into `b`
/// (optimal string alignment); counting stops at `limit` + 1.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t limit);

/// The candidate nearest to `word`, at most a third of its length (at least one edit) away; ties go
/// to the alphabet.
[[nodiscard]] std::optional<std::string> nearest(std::string_view word,
                                                 std::vector<std::string_view> const& candidates);

/// What to say of names where none is near: those with the word in them ("names with `lop` in them:
/// `french_lop`, `mini_lop`"), at most six; or all of them, where there are not many. Nothing where
/// neither helps.
[[nodiscard]] std::optional<std::string> other_names(std::string_view word,
                                                     std::vector<std::string_view> candidates);

}  // namespace flinch
