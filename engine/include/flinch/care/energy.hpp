#pragma once
// Arithmetic of feeding and of body size. Each but the body surface gives nothing
// for a weight that is not among those `dosed`.
#include <optional>

#include "flinch/model/body_weight.hpp"

namespace flinch {

/// Resting energy requirement, kcal a day: 70 x kg^0.75. Source: Merck Veterinary Manual,
/// nutritional requirements of small animals (read as quoted).
[[nodiscard]] std::optional<double> resting_energy_kcal(DosedWeights const& dosed,
                                                        double weight_kg);

/// Body surface in square metres: figure x kg^(2/3), the figure being the pack's.
[[nodiscard]] double body_surface_m2(double figure, double weight_kg);

/// Weight to aim at, kg, from the body condition score of 1 to 9: weight / (1 + 0.1 x (score - 5)).
/// Source: AAHA nutrition and weight management guidelines 2021 (from memory). Nothing for a score
/// that is not above 5: such a patient is not to lose weight.
[[nodiscard]] std::optional<double> weight_to_aim_at_kg(DosedWeights const& dosed, double weight_kg,
                                                        double score);

/// The arithmetic of slimming.
struct WeightLoss {
  double aim_kg = 0;
  double kcal_a_day = 0;  ///< resting energy at the weight to aim at
  /// Loss from which lameness was seen to ease: 6.10 % by scores, 8.85 % on the force plate.
  /// Source: Marshall WG et al. (2010) Vet Res Commun 34:241-253, 14 obese patients, uncontrolled.
  double first_benefit_kg = 0;
  double force_plate_benefit_kg = 0;
  /// A week: 0.5 % to 2 % of the weight. Source: AAHA guidelines 2021 (from memory).
  double slowest_kg_a_week = 0;
  double fastest_kg_a_week = 0;
};

[[nodiscard]] std::optional<WeightLoss> weight_loss(DosedWeights const& dosed, double weight_kg,
                                                    double score);

}  // namespace flinch
