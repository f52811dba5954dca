#pragma once
// A review for programs: docs/review.schema.json.
#include <nlohmann/json.hpp>

#include "review/review_request.hpp"

namespace flinch::cli {

[[nodiscard]] nlohmann::ordered_json review_json(Reviewed const& reviewed,
                                                 ReviewRequest const& request);

}  // namespace flinch::cli
