#pragma once
// Which body weights are believed.
#include <optional>

namespace flinch {

/// Body weights, in kg, for which amounts are computed. A judgement: below and above them the
/// figures were never tried, and a slip of the keyboard is likelier than such a patient.
inline constexpr double lightest_kg = 0.5;
inline constexpr double heaviest_kg = 100;

/// False for what is no number.
[[nodiscard]] constexpr bool is_believable_kg(double kg) {
  return kg >= lightest_kg && kg <= heaviest_kg;
}

/// The weight by which what was taken is judged: without a believable one that of the smallest
/// patient.
[[nodiscard]] constexpr double weight_to_reckon_with(std::optional<double> kg) {
  return kg && is_believable_kg(*kg) ? *kg : lightest_kg;
}

}  // namespace flinch
