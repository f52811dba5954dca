#pragma once
// A review for people to read.
#include <string>

#include "look/page.hpp"
#include "review/review_request.hpp"

namespace flinch::cli {

[[nodiscard]] std::string review_text(Reviewed const& reviewed, ReviewRequest const& request,
                                      Look const& look);

}  // namespace flinch::cli
