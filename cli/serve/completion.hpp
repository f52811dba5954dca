#pragma once
// What may stand at a place of a rule file: keywords and the names that fit.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "serve/pack_files.hpp"

namespace flinch::cli::serve {

struct Completion {
  enum class Kind { keyword, name };
  std::string text;
  Kind kind = Kind::keyword;
  std::string detail;  ///< the title of what is named
};

struct Completions {
  std::vector<Completion> items;
  std::size_t begin = 0;  ///< where what is typed so far begins; it ends at the place asked for
};

/// In the first column statements; at the start of an indented line the clauses of its statement;
/// within a clause the words and names that its kind and the word before ask for. Nothing within
/// texts and comments.
[[nodiscard]] Completions complete(PackView const& view, std::string_view text, std::size_t offset);

}  // namespace flinch::cli::serve
