#pragma once
// A statement of a pack in plain words, part by part, for somebody who reads it to answer for it.
#include <string>
#include <vector>

#include "flinch/explain/statements.hpp"

namespace flinch::cli {

/// "When", and the condition; "Why", and the rationale.
struct StatementPart {
  std::string label;
  std::string words;
};

/// All that the statement says, its figures and sources included.
[[nodiscard]] std::vector<StatementPart> statement_words(Pack const& pack,
                                                         PackStatement const& statement);

}  // namespace flinch::cli
