#pragma once
// The page of a report: for the keeper in plain words, for the clinic with everything.
#include <string>

#include "look/html.hpp"
#include "review/review_request.hpp"

namespace flinch::cli {

/// `written` is the time of writing as text; it stands in the heading and above every sheet.
[[nodiscard]] std::string report_page(Reviewed const& reviewed, Reader reader, Paper paper,
                                      std::string const& written);

}  // namespace flinch::cli
