#pragma once
// A rule file cut into what its layout is made of: statements' first lines, clauses and comments.
#include <string>
#include <string_view>
#include <vector>

#include "flinch/syntax/vocabulary.hpp"

namespace flinch::syntax {

/// A word, a number, a mark or a text, and the comments that go with it.
struct Symbol {
  std::string written;  ///< as it stands; a text with its quotes, its line breaks made blanks
  std::vector<std::string> comments_above;  ///< between the symbol before it and this one
  std::string comment_beside;               ///< behind it on its line; empty when there is none
};

struct Row {
  enum class Kind { statement, clause, comment };
  Kind kind = Kind::comment;
  Content content = Content::symbols;
  std::vector<Symbol> symbols;  ///< none in a comment
  std::string comment;          ///< from its `#` on, without blanks at its end
  bool is_indented = false;     ///< of a comment: it does not begin in the first column
  bool after_blank_line = false;
};

/// The rows of a text that parses without errors, in order.
[[nodiscard]] std::vector<Row> read_rows(std::string_view text);

/// Every comment of a text that parses without errors, in order.
[[nodiscard]] std::vector<std::string> comments_of(std::vector<Row> const& rows);

}  // namespace flinch::syntax
