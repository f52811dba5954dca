#pragma once
// Pictures of a report, as inline SVG. Each has a title and a description that say what it shows.
#include <string>
#include <string_view>
#include <vector>

#include "flinch/assess/assessment.hpp"
#include "flinch/explain/ladder.hpp"

namespace flinch::cli {

/// A place on the dog. Found sites are full and numbered as in the list beside the picture, those
/// that were checked and clear are hollow.
struct DogMark {
  SiteMark mark;
  std::size_t number = 0;  ///< 0: checked and clear
};
/// One picture a side.
[[nodiscard]] std::string dog_pictures(Pack const& pack, std::vector<DogMark> const& marks);

/// Whether the pictures have a place for the site.
[[nodiscard]] bool dog_picture_shows(Pack const& pack, SiteId site);

/// One bar a cause.
struct CauseBar {
  std::string title;
  std::string words;  ///< how likely, how sure
  double share = 0;   ///< 0 to 1
};
[[nodiscard]] std::string bars_picture(std::vector<CauseBar> const& bars);

/// From the base rate to the result, one rung a rule. `titles` has one text a rung.
[[nodiscard]] std::string ladder_picture(std::string_view cause, std::vector<Rung> const& rungs,
                                         std::vector<std::string> const& titles);

}  // namespace flinch::cli
