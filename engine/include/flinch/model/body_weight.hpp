#pragma once
// Which body weights are believed.
#include <optional>

namespace flinch {

/// Body weights, in kg, for which amounts are computed: the pack's `doses`. Below and above them a
/// slip of the keyboard is likelier than such a patient.
struct DosedWeights {
  double lightest_kg = 0;
  double heaviest_kg = 0;
};

/// The finest marks of what is drawn up, up to 1 mL; above it the marks of syringes are the same
/// everywhere. The figures are those of a pack that says nothing; a judgement.
struct SyringeMarks {
  double swallowed_mL = 0.05;
  double injected_mL = 0.01;
};

/// False for what is no number.
[[nodiscard]] constexpr bool is_believable_kg(DosedWeights const& dosed, double kg) {
  return kg >= dosed.lightest_kg && kg <= dosed.heaviest_kg;
}

/// The weight by which what was taken is judged: without a believable one that of the smallest
/// patient.
[[nodiscard]] constexpr double weight_to_reckon_with(DosedWeights const& dosed,
                                                     std::optional<double> kg) {
  return kg && is_believable_kg(dosed, *kg) ? *kg : dosed.lightest_kg;
}

}  // namespace flinch
