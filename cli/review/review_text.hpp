#pragma once
// A review for people to read.
#include <string>

#include "look/page.hpp"
#include "review/review_request.hpp"

namespace flinch::cli {

[[nodiscard]] std::string review_text(Reviewed const& reviewed, ReviewRequest const& request,
                                      Look const& look);

/// The caution that stands under everything that names a cause.
extern char const* const caution_text;

}  // namespace flinch::cli
