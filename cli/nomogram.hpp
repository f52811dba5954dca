#pragma once
// A nomogram for Bayes's theorem: a straight line from the pre-test probability through the
// likelihood ratio ends at the post-test probability.
// Source of the form: Fagan TJ (1975) Nomogram for Bayes's theorem. N Engl J Med 293:257.
#include <string>
#include <string_view>

namespace flinch::cli {

/// Where things stand on it, in the picture's own units (y grows downwards). The outer axes are
/// linear in log odds and run against each other; the ratio stands half way between, at half scale,
/// so that the three points of any one update lie on a line.
namespace nomogram {
inline constexpr double left_x = 70;
inline constexpr double middle_x = 190;
inline constexpr double right_x = 310;
inline constexpr double least = 0.0001;  ///< the axes' ends; the other is as far from 1
[[nodiscard]] double left_y(double probability);
[[nodiscard]] double middle_y(double ratio);
[[nodiscard]] double right_y(double probability);
/// The probability at a height of the right axis.
[[nodiscard]] double right_probability(double y);
}  // namespace nomogram

/// The likelihood ratio that leads from one probability to the other.
[[nodiscard]] double likelihood_ratio(double before, double after);

/// What the picture shows, in words that stand beside it as well: both probabilities and the ratio
/// as they are, and whether the axes are too short for them.
[[nodiscard]] std::string nomogram_words(double before, double after);

/// The picture for one cause. A probability beyond the axes' ends is drawn as an arrow there, and
/// the line then leads to the end, not through the ratio.
[[nodiscard]] std::string nomogram_picture(std::string_view cause, double before, double after);

}  // namespace flinch::cli
