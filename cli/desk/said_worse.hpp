#pragma once
// Words at a ring-back that say that it is worse, and not what.
#include <string>
#include <string_view>

namespace flinch::cli {

/// "Yes, worse", "much worse than then", "something new".
[[nodiscard]] bool says_only_that_it_is_worse(std::string_view line);

/// As the note of a case keeps the caller's own words that no answer holds yet: `Said: "worse".`
[[nodiscard]] std::string as_said(std::string_view words);

}  // namespace flinch::cli
