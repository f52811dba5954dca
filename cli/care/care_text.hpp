#pragma once
// A plan of care for people to read.
#include <string>
#include <string_view>

#include "flinch/care/plan.hpp"
#include "look/page.hpp"

namespace flinch::cli {

/// `file` is the case's, for the commands that the page names.
[[nodiscard]] std::string care_text(Tables const& tables, Case const& dog, std::string_view file,
                                    Assessment const& result, CarePlan const& plan,
                                    Look const& look);

/// The first few measures and the way to the whole plan, for the end of an assessment.
void write_care_summary(Pack const& pack, CarePlan const& plan, Page& page);

}  // namespace flinch::cli
