#pragma once
// Which body weights are believed.

namespace flinch {

/// Body weights, in kg, for which amounts are computed. A judgement: below and above them the
/// figures were never tried, and a slip of the keyboard is likelier than such a dog.
inline constexpr double lightest_kg = 0.5;
inline constexpr double heaviest_kg = 100;

}  // namespace flinch
