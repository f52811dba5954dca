#pragma once
// Open questions in the order in which a vet would want them answered.
#include <vector>

#include "flinch/assess/open_questions.hpp"

namespace flinch {

/// The open questions, highest tier first and what could not be told last, as `open_questions` has
/// them; within that those that alone reach the tier, and of these those first whose yes would make
/// a cause that needs this tier or a higher one the most probable, by the answers so far. So a
/// patient's own dangers come before those of others.
[[nodiscard]] std::vector<OpenQuestion> likely_dangers(Tables const& tables,
                                                       Assessment const& result);

/// The chance of the most probable cause that needs `tier` or a higher one, if the sign or a part
/// of it were found and nothing else were learnt; 0 when no rule says anything of it.
[[nodiscard]] double chance_if_found(Tables const& tables, Assessment const& result, SignId sign,
                                     TierId tier);

}  // namespace flinch
