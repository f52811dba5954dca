#pragma once
// Finding things of a pack by what people call them.
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/model/pack.hpp"

namespace flinch {

enum class NamedKind : std::uint8_t { cause, sign, rule, alarm, source, family, care };

/// `cause`, `sign` and so on, as the language writes them.
[[nodiscard]] std::string_view kind_text(NamedKind kind);

/// How many the pack has of a kind.
[[nodiscard]] std::uint32_t how_many(Pack const& pack, NamedKind kind);

struct Named {
  NamedKind kind{};
  std::uint32_t index = 0;
  friend bool operator==(Named const&, Named const&) = default;
};

struct NameSearch {
  std::vector<Named> by_name;
  std::vector<Named> by_words;         ///< by title or other words, letter case alike
  std::optional<std::string> nearest;  ///< when nothing is found: the name most like it
  std::vector<Named> containing;       ///< then too: those with these words in a name, a title or
                                       ///< what a cause is also called
  /// Those found by name; where there are none, those found by words.
  [[nodiscard]] std::vector<Named> const& best() const {
    return by_name.empty() ? by_words : by_name;
  }
};

/// Things of these kinds that are called so. A blank, `-` and `_` are alike.
[[nodiscard]] NameSearch find_named(Pack const& pack, std::string_view called,
                                    std::span<NamedKind const> kinds);

/// The name of a thing, as rules write it, and its words for people.
[[nodiscard]] std::string const& name_of(Pack const& pack, Named thing);
[[nodiscard]] std::string const& title_of(Pack const& pack, Named thing);

}  // namespace flinch
