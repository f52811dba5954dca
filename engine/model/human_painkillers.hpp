#pragma once
// Painkillers for people, which nobody but a clinician is ever told to give.
#include <optional>
#include <string_view>

namespace flinch {

/// The first such name in a text, as it is written there, in small or capital letters.
[[nodiscard]] std::optional<std::string_view> human_painkiller_in(std::string_view text);

}  // namespace flinch
