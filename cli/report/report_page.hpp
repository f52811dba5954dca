#pragma once
// The page of a report: for the keeper in plain words, for the clinic with everything.
#include <string>
#include <vector>

#include "book/course.hpp"
#include "flinch/telling/telling.hpp"
#include "look/html.hpp"
#include "review/review_request.hpp"

namespace flinch::cli {

/// In short is one sheet for a keeper and two for a clinic.
enum class Extent : bool { in_short, all };

/// The visits of the patient up to this one, from the book, and what they say of its course.
struct OverTime {
  std::vector<Visit> visits;  ///< oldest first, this one the last
  std::string sentence;       ///< on the course; may be empty
};

/// The time of writing stands in the heading and above every sheet, the practice in the heading.
[[nodiscard]] std::string report_page(Reviewed const& reviewed, Reader reader, Paper paper,
                                      Setting const& setting, Extent extent,
                                      OverTime const& over_time = {});

}  // namespace flinch::cli
