#pragma once
// How text from outside looks on a terminal: its width, and how to make it harmless.
#include <cstddef>
#include <string>
#include <string_view>

namespace flinch {

/// Columns that UTF-8 text takes on a terminal; tabs and control characters count nothing.
[[nodiscard]] std::size_t display_width(std::string_view text);

/// The largest offset up to `at` that does not cut a UTF-8 character in two.
[[nodiscard]] std::size_t whole_character(std::string_view text, std::size_t at);

/// As much of a word that somebody wrote as a message shows: 40 bytes, no character cut in two.
[[nodiscard]] std::string_view shown(std::string_view word);

/// The text with control characters (except tab) shown as `?`, so that no escape sequence passes.
[[nodiscard]] std::string inert(std::string_view text);

/// The offset of the first byte that is not valid UTF-8, or `npos`.
[[nodiscard]] std::size_t find_invalid_utf8(std::string_view text);

/// The first code point of a text that is valid UTF-8 and not empty.
[[nodiscard]] char32_t first_code_point(std::string_view text);

}  // namespace flinch
