#pragma once
// A plan of care for people to read.
#include <string>

#include "flinch/care/plan.hpp"
#include "look/page.hpp"

namespace flinch::cli {

[[nodiscard]] std::string care_text(Tables const& tables, Case const& dog, Assessment const& result,
                                    CarePlan const& plan, Look const& look);

/// The first few measures and the way to the whole plan, for the end of an assessment.
void write_care_summary(Pack const& pack, CarePlan const& plan, Page& page);

}  // namespace flinch::cli
