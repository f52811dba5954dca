#pragma once
// An assessment for programs: docs/assessment.schema.json.
#include <nlohmann/json.hpp>

#include "flinch/assess/assessment.hpp"

namespace flinch::cli {

[[nodiscard]] nlohmann::ordered_json assessment_json(Tables const& tables, Case const& patient,
                                                     Assessment const& result);

}  // namespace flinch::cli
