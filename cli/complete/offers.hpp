#pragma once
// What a shell may offer where the cursor stands on a line that begins with `flinch`.
#include <span>
#include <string>
#include <vector>

#include "command.hpp"

namespace flinch::cli {

struct Offer {
  std::string word;  ///< in the place of the last word of the line
  std::string about;
};

/// What may stand there.
struct Offers {
  std::vector<Offer> words;  ///< commands, options and choices that begin as the last word does
  bool paths = false;        ///< files and folders too
  std::vector<NamedKind> names{};  ///< and names of the pack of these kinds,
  std::string pack{};              ///< which is this one; empty: the shipped pack
  std::string begun{};             ///< as far as such a name is written
  std::string before_name{};       ///< what stands before the name in the same word: `--cause=`
};

/// `line` is what stands after `flinch`, the last word being the one that is not finished, and may
/// be empty. A shell that splits words at `=` may hand that over as a word.
[[nodiscard]] Offers offers_at(std::span<Command const* const> commands,
                               std::vector<std::string> const& line);

}  // namespace flinch::cli
