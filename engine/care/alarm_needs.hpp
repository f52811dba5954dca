#pragma once
// What of an alarm's condition was false, in the words of those who write packs.
#include <string>

#include "flinch/assess/assessment.hpp"
#include "flinch/assess/evaluator.hpp"

namespace flinch {

/// Of a condition that is known to be false: which parts would have to hold, and what is known of
/// them instead. "it would need `eats at least less`, which is no here (appetite: as usual)".
[[nodiscard]] std::string what_it_needs(Tables const& tables, Assessment const& result,
                                        Condition const& condition);

}  // namespace flinch
