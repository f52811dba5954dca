#pragma once
// "Did you mean ...?" answered: yes to the only name, or the number of one of several.
#include <cstddef>
#include <optional>
#include <string_view>

namespace flinch::cli {

/// Which of so many that were offered the line takes, from 0 on; nothing for other words.
[[nodiscard]] std::optional<std::size_t> offer_taken(std::size_t offered, std::string_view line);

}  // namespace flinch::cli
