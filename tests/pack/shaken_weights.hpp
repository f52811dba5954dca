#pragma once
// How firmly an assessment stands: its weights multiplied by chance.
#include "flinch/assess/assessment.hpp"
#include "pack/chance.hpp"

namespace flinch::test {

struct Firmness {
  double first_cause_holds = 0;  ///< share of the shakes
  double tier_holds = 0;
};

/// Multiplies each weight of each cause by its own factor between 1/2 and 2, `shakes` times. The
/// alarms stay as they are.
[[nodiscard]] Firmness shake(Tables const& tables, Assessment const& result, int shakes,
                             Chance& chance);

}  // namespace flinch::test
