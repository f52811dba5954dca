#pragma once
// What a report says of the causes, in words, pictures and tables.
#include <string>

#include "report_page.hpp"

namespace flinch::cli {

/// How likely the cause at a place of the ranking is, and whether the next one can be told from it.
[[nodiscard]] std::string likelihood_in_words(Reviewed const& reviewed, std::size_t place);

/// Bars and words for the first causes; for the clinic also whether their figures were counted,
/// derived or judged.
[[nodiscard]] std::string causes_in_short(Reviewed const& reviewed, Reader reader,
                                          std::size_t shown);

/// For the clinic: every reason of the first causes, their ladders, and the nomogram of the first.
[[nodiscard]] std::string causes_in_full(Reviewed const& reviewed);

}  // namespace flinch::cli
