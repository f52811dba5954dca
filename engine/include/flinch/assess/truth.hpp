#pragma once
// Kleene's strong three-valued logic. Source: Kleene SC (1952) Introduction to Metamathematics,
// section 64; the tables follow from the order no < unknown < yes.
#include <algorithm>
#include <cstdint>

namespace flinch {

enum class Truth : std::uint8_t { no, unknown, yes };

[[nodiscard]] constexpr Truth truth(bool known) { return known ? Truth::yes : Truth::no; }
[[nodiscard]] constexpr Truth negation(Truth a) {
  return static_cast<Truth>(2 - static_cast<int>(a));
}
[[nodiscard]] constexpr Truth both(Truth a, Truth b) { return std::min(a, b); }
[[nodiscard]] constexpr Truth either(Truth a, Truth b) { return std::max(a, b); }

/// "At least `needed`" of conditions of which `yes` hold and `unknown` may hold.
[[nodiscard]] constexpr Truth at_least(std::uint32_t needed, std::uint32_t yes,
                                       std::uint32_t unknown) {
  if (yes >= needed) return Truth::yes;
  return yes + unknown >= needed ? Truth::unknown : Truth::no;
}

}  // namespace flinch
