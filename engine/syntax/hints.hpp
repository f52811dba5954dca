#pragma once
// What was probably meant by characters that the language does not have, as people write them
// elsewhere.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace flinch::syntax {

/// How what stands at `at` is written here: curly quotes, a range with a dash, `mg/kg`.
[[nodiscard]] std::optional<std::string> writing_hint(std::string_view text, std::size_t at);

/// Where the first curly quote stands, or `npos`.
[[nodiscard]] std::size_t find_curly_quote(std::string_view text);

}  // namespace flinch::syntax
