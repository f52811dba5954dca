#pragma once
// One measure in full, as each reader needs it.
#include "care/care_page.hpp"

namespace flinch::cli {

/// Dose, how, when to stop, evidence and sources; what the reader has no use for is left out.
void write_details(CarePage const& on, PlannedMeasure const& measure);

}  // namespace flinch::cli
