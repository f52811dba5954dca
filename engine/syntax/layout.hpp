#pragma once
// Where statements and clauses begin, seen from the lines alone. Cutting first keeps one mistake
// from spoiling what follows it.
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "flinch/text/diagnostic.hpp"

namespace flinch::syntax {

/// A line that starts outside any text and holds more than a comment.
struct Line {
  std::uint32_t begin = 0;  ///< its first character that is not a blank
  std::uint32_t end = 0;    ///< where the next such line begins, or the end of the file
  bool in_first_column = false;
  bool after_comma = false;  ///< the line before it ended in a comma: it goes on
};

/// The lines of a file. A text that is never closed is reported and ends where a line starts in the
/// first column.
[[nodiscard]] std::vector<Line> read_lines(std::string_view text, FileId file, Report& report);

/// The word at `at`: letters, digits and `_`.
[[nodiscard]] std::string_view word_at(std::string_view text, std::uint32_t at);

/// The end of `phrase` (words, with single blanks between) if it stands at `at`, else 0.
[[nodiscard]] std::uint32_t phrase_at(std::string_view text, std::uint32_t at,
                                      std::string_view phrase);

/// The clause of which the longest words stand at `at` (`read by`, not `read`), or null.
template <class Clauses>
[[nodiscard]] auto const* clause_at(std::string_view text, std::uint32_t at,
                                    Clauses const& clauses) {
  decltype(&*clauses.begin()) out = nullptr;
  std::uint32_t longest = 0;
  for (auto const& clause : clauses) {
    auto const end = phrase_at(text, at, clause.phrase);
    if (end <= longest) continue;
    longest = end;
    out = &clause;
  }
  return out;
}

}  // namespace flinch::syntax
