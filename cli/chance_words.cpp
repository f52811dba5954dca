#include "chance_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace flinch::cli {

std::string per_cent(double share) {
  auto const hundred = 100 * share;
  if (hundred < 0.095) return "under 0.1%";
  if (hundred >= 99.95) return "over 99.9%";
  return fmt::format("{:.1f}%", hundred);
}

std::string_view chance_in_words(double probability) {
  struct Word {
    double from;
    std::string_view word;
  };
  constexpr std::array words = {Word{0.9, "very likely"},    Word{0.6, "likely"},
                                Word{0.3, "quite possible"}, Word{0.1, "possible"},
                                Word{0.02, "unlikely"},      Word{0, "very unlikely"}};
  auto const* word = std::find_if(words.begin(), words.end(),
                                  [&](Word const& w) { return probability >= w.from; });
  return word->word;
}

std::string ratio_in_words(double ratio) {
  constexpr double most = 999.9e6;
  if (ratio > most) return "over 999,900,000";
  if (ratio < 0.001) return "under 0.001";
  if (ratio < 0.9995) return fmt::format("{:.3g}", ratio);
  if (ratio < 9.995) return fmt::format("{:.2f}", ratio);
  if (ratio < 99.95) return fmt::format("{:.1f}", ratio);
  auto const step = std::max(1.0, std::pow(10.0, std::floor(std::log10(ratio)) - 3));
  auto digits = fmt::format("{:.0f}", std::round(ratio / step) * step);
  for (auto at = digits.size(); at > 3; at -= 3) digits.insert(at - 3, ",");
  return digits;
}

}  // namespace flinch::cli
