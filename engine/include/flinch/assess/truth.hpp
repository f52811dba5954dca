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
/// Of `unless`: as long as it is not known to hold.
[[nodiscard]] constexpr Truth unless(Truth a) { return truth(a != Truth::yes); }
[[nodiscard]] constexpr Truth both(Truth a, Truth b) { return std::min(a, b); }
[[nodiscard]] constexpr Truth either(Truth a, Truth b) { return std::max(a, b); }

/// "At least `needed`" of conditions of which `yes` hold and `unknown` may hold.
[[nodiscard]] constexpr Truth at_least(std::uint32_t needed, std::uint32_t yes,
                                       std::uint32_t unknown) {
  if (yes >= needed) return Truth::yes;
  return yes + unknown >= needed ? Truth::unknown : Truth::no;
}

/// The same of parts whose truths `truth_of` gives; each is asked once, in order.
template <class Parts, class TruthOf>
[[nodiscard]] constexpr Truth at_least(std::uint32_t needed, Parts const& parts,
                                       TruthOf const& truth_of) {
  std::uint32_t yes = 0;
  std::uint32_t unknown = 0;
  for (auto const& part : parts) {
    Truth const truth = truth_of(part);
    yes += truth == Truth::yes ? 1 : 0;
    unknown += truth == Truth::unknown ? 1 : 0;
  }
  return at_least(needed, yes, unknown);
}

}  // namespace flinch
