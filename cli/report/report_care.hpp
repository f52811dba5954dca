#pragma once
// Home care on a page to hand over.
#include <string>

#include "flinch/telling/telling.hpp"
#include "report/report_page.hpp"

namespace flinch::cli {

/// What may be done until the patient is seen, what not, what waits for an answer, and, for the
/// clinic, what is withheld and why; as markup. Empty when the pack has no care.
[[nodiscard]] std::string care_on_page(Reviewed const& reviewed, Telling const& telling,
                                       Extent extent);

/// What means "ring again", as the pack has it for this patient, and when to look again; as items
/// of a list.
[[nodiscard]] std::string watch_on_page(Telling const& telling, Extent extent);

}  // namespace flinch::cli
