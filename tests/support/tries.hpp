#pragma once
// How much is tried where a sanitiser makes everything some ten times as slow.
#include <cstddef>

namespace flinch::test {

#ifdef FLINCH_SANITIZED
/// It looks for faults of memory and arithmetic, and meets those in a part of the tries.
inline constexpr std::size_t sanitised_share = 8;
#else
inline constexpr std::size_t sanitised_share = 1;
#endif

/// `count` tries, or an eighth of them (at least one) under a sanitiser.
[[nodiscard]] constexpr std::size_t tries(std::size_t count) {
  return (count + sanitised_share - 1) / sanitised_share;
}

}  // namespace flinch::test
