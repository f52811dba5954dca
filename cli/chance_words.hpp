#pragma once
// Chances and ratios as people read them, alike on every page and screen.
#include <string>
#include <string_view>

namespace flinch::cli {

/// "12.3%"; what would round to 0 or to 100 reads "under 0.1%" or "over 99.9%".
[[nodiscard]] std::string per_cent(double share);

/// "likely", "possible", ... : a chance in words. The limits are a judgement.
[[nodiscard]] std::string_view chance_in_words(double probability);

/// A ratio above 0 in at most four digits, never as a power of ten: "40,790", "1.09", "0.012";
/// "over 999,900,000" and "under 0.001" beyond.
[[nodiscard]] std::string ratio_in_words(double ratio);

}  // namespace flinch::cli
