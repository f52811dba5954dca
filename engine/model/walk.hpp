#pragma once
// Visiting the tests of a condition, meanings opened up, with the sign of each occurrence.
#include <cstdint>

#include "flinch/model/pack.hpp"

namespace flinch {

/// Whether a test stands under an even or an odd number of `not` and `unless`.
enum class Polarity : std::uint8_t { positive, negative };

[[nodiscard]] constexpr Polarity opposite(Polarity p) {
  return p == Polarity::positive ? Polarity::negative : Polarity::positive;
}

/// Calls `visit(condition, polarity)` for each test, `condition` being the leaf that holds it.
template <class Visit>
void walk_tests(Pack const& pack, Condition const& condition, Visit const& visit,
                Polarity polarity = Polarity::positive) {
  switch (condition.kind) {
    case Condition::Kind::test:
      visit(condition, polarity);
      return;
    case Condition::Kind::meaning:
      walk_tests(pack, pack[condition.meaning].condition, visit, polarity);
      return;
    case Condition::Kind::negation:
    case Condition::Kind::unless:
      walk_tests(pack, condition.parts.front(), visit, opposite(polarity));
      return;
    default:
      for (auto const& part : condition.parts) walk_tests(pack, part, visit, polarity);
  }
}

}  // namespace flinch
