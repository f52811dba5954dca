#pragma once
// A thing of the pack as a readable page: what it is, where it is used, what it weighs, where that
// comes from.
#include <optional>
#include <string>
#include <vector>

#include "flinch/assess/tables.hpp"
#include "flinch/model/find_named.hpp"

namespace flinch {

/// A piece of a line; with `thing` it names another thing that has a page of its own.
struct DescribedPiece {
  std::string text;
  std::optional<Named> thing;
};

struct DescribedLine {
  std::size_t depth = 0;  ///< 0 for the lines of a section, more for what belongs to the line above
  std::vector<DescribedPiece> pieces;
};

struct DescribedSection {
  std::string heading;
  std::vector<DescribedLine> lines;
};

struct Description {
  Named thing;
  std::string title;
  std::vector<DescribedSection> sections;  ///< none is empty
};

/// Weights are given in decibans and words, strongest first; a figure says whether it was counted
/// (in how many, by whom) or judged.
[[nodiscard]] Description describe(Tables const& tables, Named thing);

/// All things of a kind, in the order of the pack.
[[nodiscard]] std::vector<Named> all_named(Pack const& pack, NamedKind kind);

}  // namespace flinch
