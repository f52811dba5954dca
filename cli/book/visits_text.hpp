#pragma once
// The visits of a patient, a line each.
#include <vector>

#include "book/book.hpp"
#include "flinch/model/pack.hpp"
#include "look/page.hpp"

namespace flinch::cli {

/// Day, number, urgency, pain as told, weight and what it came for; an outcome on a line below.
void write_visits(std::vector<CallLine> const& calls, Pack const& pack, Page& page);

}  // namespace flinch::cli
