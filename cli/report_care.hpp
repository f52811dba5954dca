#pragma once
// Home care on a page to hand over.
#include <string>

#include "report_page.hpp"

namespace flinch::cli {

/// What may be done until the dog is seen, what not, what waits for an answer, and, for the clinic,
/// what is withheld and why; as markup. Empty when the pack has no care.
[[nodiscard]] std::string care_on_page(Reviewed const& reviewed, Reader reader);

}  // namespace flinch::cli
