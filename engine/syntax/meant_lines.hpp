#pragma once
// Beginnings of a line that are no clause of the statement, and the clause that they stand for.
#include <string_view>
#include <vector>

namespace flinch::syntax {

/// How a line may begin in error, in small letters with single blanks.
struct MeantLine {
  std::string_view written;
  std::string_view clause;  ///< the clause meant
  std::string_view remedy;  ///< in words, where naming the clause says too little
  bool goes_on = false;     ///< it begins as another clause does
};

/// The row for a line that begins with these words, the longest that fits; `phrases` are the
/// clauses of the statement. What holds a measure back is never taken for what lets it through, nor
/// the other way round, nor where the next word turns the meaning: who follows the remedy to the
/// letter must not turn the meaning over. Null where the beginning is unknown.
[[nodiscard]] MeantLine const* meant_line(std::string_view beginning,
                                          std::vector<std::string_view> const& phrases);

}  // namespace flinch::syntax
