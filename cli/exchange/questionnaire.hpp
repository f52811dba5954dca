#pragma once
// The vocabulary of a pack as a Questionnaire.
#include "exchange/terms.hpp"

namespace flinch::cli {

/// Every sign is an item, its name the `linkId`; then what the patient came for, how it turned out,
/// and the free texts of a case.
[[nodiscard]] Json questionnaire(Pack const& pack);

}  // namespace flinch::cli
