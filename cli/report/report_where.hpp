#pragma once
// Where signs were found on the patient, where not, and where nobody has looked.
#include <string>

#include "report/report_page.hpp"

namespace flinch::cli {

/// The patient from both sides with what was found by number; then what is clear, and of which
/// sign; what was found at a place that is not known; and what was not checked, which is not clear.
[[nodiscard]] std::string where_on_the_patient(Reviewed const& reviewed);

}  // namespace flinch::cli
