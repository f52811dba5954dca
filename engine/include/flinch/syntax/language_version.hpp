#pragma once
// The version of the rule language.
#include <string_view>

namespace flinch {

/// Of the language that this library reads; docs/language_reference.md says what the two numbers
/// mean.
inline constexpr std::string_view language_version = "2.0";

}  // namespace flinch
