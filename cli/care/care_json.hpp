#pragma once
// A plan of care for programs: docs/care.schema.json.
#include <nlohmann/json.hpp>

#include "flinch/care/plan.hpp"

namespace flinch::cli {

[[nodiscard]] nlohmann::ordered_json care_json(Tables const& tables, Case const& dog,
                                               Assessment const& result, CarePlan const& plan);

}  // namespace flinch::cli
