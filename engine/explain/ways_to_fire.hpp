#pragma once
// Which answers would make a condition true.
#include <vector>

#include "flinch/explain/rule.hpp"

namespace flinch {

/// Ways that look right on paper, fewest tests first; whether the answers then have the effect is
/// for the caller to verify.
[[nodiscard]] std::vector<WayToFire> possible_ways(Tables const& tables, Case const& dog,
                                                   ConditionNode const& condition);

}  // namespace flinch
