#pragma once
// The pictures of an audit as inline SVG.
#include <string>
#include <string_view>
#include <vector>

#include "flinch/audit/audit.hpp"

namespace flinch::cli {

/// One curve of the ROC plot.
struct RocLine {
  std::string name;
  std::vector<RocPoint> points;
};

// Each picture has a title and a description; `id` is unique in the page and a plain word.

[[nodiscard]] std::string reliability_plot(std::string const& id, std::string_view title,
                                           std::vector<ReliabilityBand> const& bands);
/// The first line is drawn full, the others dashed.
[[nodiscard]] std::string roc_plot(std::string const& id, std::string_view title,
                                   std::vector<RocLine> const& lines);
/// Squares whose area is the number of cases; those below the needed tier have a frame.
[[nodiscard]] std::string tier_plot(std::string const& id, std::vector<std::string> const& tiers,
                                    GradeTable const& cells);

}  // namespace flinch::cli
