#pragma once
// Words and letters that people bring from elsewhere, and what stands for them here.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/text/source.hpp"

namespace flinch::syntax {

/// How a word from elsewhere that stands behind an amount is said here: `orally`, `q24h`, `bid`.
[[nodiscard]] std::optional<std::string> said_here(std::string_view word);

/// A name as near to what was written as its letters allow: `Tail-Bob` is `tail_bob`. Nothing where
/// that is no name either.
[[nodiscard]] std::optional<std::string> as_name(std::string_view written);

/// The run of letters, digits, `_` and `-` around a place, foreign letters included.
[[nodiscard]] Span name_like(std::string_view text, Span within, std::uint32_t at);

/// How many bytes a letter or digit that people put into names takes; 0 where none stands.
[[nodiscard]] std::size_t letter_or_digit(std::string_view text);

/// The statement that a word stands for: `symptom` is a sign.
[[nodiscard]] std::optional<std::string_view> meant_statement(std::string_view word);

/// Which of the clauses a word stands for: `question` is `ask`.
[[nodiscard]] std::optional<std::string_view> meant_clause(
    std::string_view word, std::vector<std::string_view> const& phrases);

/// Where the first curly quote stands, or `npos`.
[[nodiscard]] std::size_t find_curly_quote(std::string_view text);

/// How many bytes the curly quote that stands here takes; 0 where none does.
[[nodiscard]] std::size_t curly_quote(std::string_view text);

/// `U+00A0` for a character that cannot be seen, nothing for others.
[[nodiscard]] std::optional<std::string> unseen_character(std::string_view at);

/// With small letters a to z for capitals.
[[nodiscard]] std::string lowered(std::string_view word);

/// Whether it can stand as a name.
[[nodiscard]] bool is_name(std::string_view word);

}  // namespace flinch::syntax
