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

/// How far a weight may lie outside the range of a grown patient of its breed or size before it is
/// asked whether that is right. The figures are those of a pack that says nothing; judgements: each
/// point of body condition above 5 of 9 is 10 to 15 % more weight (Purina Institute, body condition
/// system; read in part), so the fattest is up to 60 % over, and some are heavier than their
/// breed's standard. The thinnest score is some 40 % under, and some are lighter than the standard.
struct WeightDoubts {
  double above_of_high = 1.7;  ///< of the heavy end of what is usual
  double below_of_low = 0.5;   ///< of the light end
  double pounds_above = 1.6;   ///< of the heavy end, where the weight would be usual in pounds
  /// More than that, for small ones. Where the pack says none: twice the lightest weight of its
  /// `doses`, but at most a quarter of the heavy end.
  std::optional<double> leeway_kg{};
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
