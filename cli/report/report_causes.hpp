#pragma once
// What a report says of the causes, in words, pictures and tables.
#include <string>

#include "report/report_page.hpp"

namespace flinch::cli {

/// Words for the first causes, and bars unless it is in short: how likely, how far off
/// that may be, and which cannot be told apart from the first; for the clinic also in numbers, and
/// whether their figures were counted, derived or judged.
[[nodiscard]] std::string causes_in_short(Reviewed const& reviewed, Reader reader,
                                          std::size_t shown, Extent extent);

/// For the clinic: every reason of the first causes, their ladders, and the nomogram of the first.
[[nodiscard]] std::string causes_in_full(Reviewed const& reviewed);

}  // namespace flinch::cli
