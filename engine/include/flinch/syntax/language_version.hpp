#pragma once
// The version of the rule language.
#include <string_view>

namespace flinch {

/// Of the language that this library reads: docs/language_reference.md. The second number grows
/// with what is added, the first when a pack that was sound no longer means the same.
inline constexpr std::string_view language_version = "1.2";

}  // namespace flinch
