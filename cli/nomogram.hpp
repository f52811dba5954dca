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
[[nodiscard]] double left_y(double probability);
[[nodiscard]] double middle_y(double ratio);
[[nodiscard]] double right_y(double probability);
/// The probability at a height of the right axis.
[[nodiscard]] double right_probability(double y);
}  // namespace nomogram

/// The picture for one cause; probabilities are held to the axes' ends, 0.1 % and 99.9 %.
[[nodiscard]] std::string nomogram_picture(std::string_view cause, double before, double after);

}  // namespace flinch::cli
