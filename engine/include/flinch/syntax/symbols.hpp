#pragma once
// Where the symbols of a rule file begin and end: words, numbers, texts, marks.
#include <cstddef>
#include <string_view>

namespace flinch::syntax {

/// Whether names and words are made of it: small and capital letters, digits, `_`.
[[nodiscard]] constexpr bool is_word_part(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}
[[nodiscard]] constexpr bool is_blank(char c) {
  return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

/// Where the symbol ends that begins at `at`, which is no blank and begins no comment. A text that
/// is not closed ends with `text`.
[[nodiscard]] std::size_t symbol_end(std::string_view text, std::size_t at);
/// Whether the text from `at` to `end` is closed, its quotes being the first and the last of it.
[[nodiscard]] bool is_closed_text(std::string_view text, std::size_t at, std::size_t end);

}  // namespace flinch::syntax
