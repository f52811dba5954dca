#pragma once
// What a report says of the causes, in words, pictures and tables.
#include <string>

#include "report/report_page.hpp"

namespace flinch::cli {

/// Bars and words for the first causes: how likely, how far off that may be, and which cannot be
/// told apart from the first; for the clinic also in numbers, and whether their figures were
/// counted, derived or judged.
[[nodiscard]] std::string causes_in_short(Reviewed const& reviewed, Reader reader,
                                          std::size_t shown);

/// For the clinic: every reason of the first causes, their ladders, and the nomogram of the first.
[[nodiscard]] std::string causes_in_full(Reviewed const& reviewed);

}  // namespace flinch::cli
