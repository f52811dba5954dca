#pragma once
// How many questions are open that could raise the tier, and who can answer them: one count for
// every page that speaks of them.
#include <string>
#include <vector>

#include "flinch/assess/open_questions.hpp"
#include "flinch/model/pack.hpp"

namespace flinch {

/// "84 open: 71 anyone can tell, 2 of the patient itself, 9 need hands on it, 1 needs a
/// clinic", or "the vet" where the vet comes; of all
/// that `open_questions` gives; what could not be told is counted as such.
[[nodiscard]] std::string open_count_text(Pack const& pack,
                                          std::vector<OpenQuestion> const& questions,
                                          SeenAt seen_at);

}  // namespace flinch
