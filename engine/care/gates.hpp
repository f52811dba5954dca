#pragma once
// The truth of a care statement's conditions, and the answers that made it so.
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// Kleene's truth of a condition on what is known of the dog.
[[nodiscard]] Truth truth_of(Tables const& tables, Assessment const& result,
                             Condition const& condition);

/// The signs whose answers (or missing answers) make the condition what it is, each once, in the
/// order of the condition.
[[nodiscard]] std::vector<SignId> signs_behind(Tables const& tables, Assessment const& result,
                                               Condition const& condition);

}  // namespace flinch
