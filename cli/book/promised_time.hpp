#pragma once
// When a caller was promised to be rung back, from the words that stand in the case.
#include <ctime>
#include <optional>
#include <string>

namespace flinch::cli {

/// "2026-11-25 15:40" in local time, or "15:40", the next such time after `said`; nothing for other
/// words.
[[nodiscard]] std::optional<std::time_t> promised_time(std::string const& words, std::time_t said);

}  // namespace flinch::cli
