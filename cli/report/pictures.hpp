#pragma once
// Pictures of a report, as inline SVG. Each has a title and a description that say what it shows.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "book/course.hpp"
#include "flinch/assess/assessment.hpp"
#include "flinch/assess/uncertainty.hpp"
#include "flinch/explain/ladder.hpp"

namespace flinch::cli {

/// A place on the patient. Found sites are full and numbered as in the list beside the picture,
/// those that were checked and clear are hollow.
struct PatientMark {
  SiteMark mark;
  std::size_t number = 0;  ///< 0: checked and clear
};
/// One picture a side: on the pack's outline, or as a sheet of labelled spots.
[[nodiscard]] std::string patient_pictures(Pack const& pack, std::vector<PatientMark> const& marks);

/// Whether the pictures have a place for the mark. What was found is marked at the site that covers
/// it where its own has no place; what is clear is not.
[[nodiscard]] bool picture_shows(Pack const& pack, PatientMark const& mark);

/// The covering site at which the mark stands, where that is not its own.
[[nodiscard]] std::optional<SiteId> picture_covers_by(Pack const& pack, PatientMark const& mark);

/// One bar a cause.
struct CauseBar {
  std::string title;
  std::string words;     ///< how likely, and how far off that may be
  std::string numbers;   ///< the same in numbers, or nothing
  std::string standing;  ///< whether it can be told from the first, or nothing
  double share = 0;      ///< 0 to 1
  Interval allowed;      ///< by the figures behind it: the whisker
};
[[nodiscard]] std::string bars_picture(std::vector<CauseBar> const& bars);

/// A column a visit, the last eight: urgency, pain as told, weight, and a dot a sign.
[[nodiscard]] std::string visits_picture(Pack const& pack, std::vector<Visit> const& visits);

/// From the base rate to the result, one rung a rule. `titles` has one text a rung.
[[nodiscard]] std::string ladder_picture(std::string_view cause, std::vector<Rung> const& rungs,
                                         std::vector<std::string> const& titles);

}  // namespace flinch::cli
