#pragma once
// All that the pages tell of a patient, for programs: the object `telling` of
// docs/care.schema.json.
#include <nlohmann/json.hpp>

#include "flinch/telling/telling.hpp"

namespace flinch::cli {

/// Measures, doses and the caution stand beside it in the output of `care`.
[[nodiscard]] nlohmann::ordered_json telling_json(Pack const& pack, Telling const& told);

}  // namespace flinch::cli
