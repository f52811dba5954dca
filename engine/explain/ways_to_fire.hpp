#pragma once
// Which answers would make a condition true.
#include <vector>

#include "flinch/explain/rule.hpp"

namespace flinch {

/// Whether facts of the patient that are known (its age, its breed) may be supposed to be others.
enum class Patient : bool { as_it_is, another };

/// Ways that look right on paper, each as the sets of answers that would do alike; whether they
/// then have the effect is for the caller to verify.
[[nodiscard]] std::vector<std::vector<WayToFire>> possible_ways(Tables const& tables,
                                                                Case const& patient,
                                                                Assessment const& result,
                                                                ConditionNode const& condition,
                                                                Patient facts);

}  // namespace flinch
