#pragma once
// The time now, and times as they are written.
#include <ctime>
#include <string>

namespace flinch::cli {

/// The time now; `SOURCE_DATE_EPOCH` (seconds since 1970) stands in for the clock where output must
/// be the same on every run.
[[nodiscard]] std::time_t now_or_fixed();

/// "2026-11-25 15:40" in local time.
[[nodiscard]] std::string clock_text(std::time_t time);

}  // namespace flinch::cli
