#pragma once
// What the clinician reads: by problem, what fits this patient, and what it may not have.
#include "care/care_page.hpp"

namespace flinch::cli {

/// Nothing for other readers.
void write_for_clinician(CarePage const& on);

}  // namespace flinch::cli
