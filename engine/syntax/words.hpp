#pragma once
// The words of the language: which are reserved, which head statements.
#include <algorithm>
#include <array>
#include <string_view>

#include "flinch/syntax/symbols.hpp"

namespace flinch::syntax {

/// Words that conditions are made of; they are no names.
inline constexpr std::array<std::string_view, 17> reserved_words = {
    "and", "at", "between", "from", "if",  "in",    "is", "least", "left",
    "not", "of", "or",      "over", "per", "right", "to", "under"};

[[nodiscard]] constexpr bool is_reserved(std::string_view word) {
  return std::find(reserved_words.begin(), reserved_words.end(), word) != reserved_words.end();
}

[[nodiscard]] constexpr bool is_name_start(char c) { return c >= 'a' && c <= 'z'; }
[[nodiscard]] constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }
[[nodiscard]] constexpr bool is_name_part(char c) {
  return is_name_start(c) || is_digit(c) || c == '_';
}

}  // namespace flinch::syntax
