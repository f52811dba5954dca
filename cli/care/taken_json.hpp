#pragma once
// What the patient has taken already, as JSON: the same in `flinch assess`, `review` and `care`.
#include <nlohmann/json.hpp>

#include "flinch/assess/assessment.hpp"

namespace flinch::cli {

[[nodiscard]] nlohmann::ordered_json taken_json(Pack const& pack, Assessment const& result);

}  // namespace flinch::cli
