#pragma once
// The answers to a sign that the conditions of a pack can tell apart.
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// For each sign that can be asked, the answers other than the present one, one of each kind that
/// some condition tells apart. One site is added to those found, or two that
/// one condition asks for, or all that it asks for; or the sign is found nowhere.
[[nodiscard]] std::vector<Change> telling_changes(Tables const& tables, Case const& patient);

}  // namespace flinch
