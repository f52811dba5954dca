#pragma once
// A plan of care for programs: docs/care.schema.json.
#include <nlohmann/json.hpp>

#include "flinch/telling/telling.hpp"

namespace flinch::cli {

[[nodiscard]] nlohmann::ordered_json care_json(Tables const& tables, Case const& patient,
                                               Assessment const& result, Telling const& told);

}  // namespace flinch::cli
