#pragma once
// Arithmetic of feeding and of body size, by the figures of the pack. Each but the body surface
// gives nothing for a weight that is not among those `dosed`.
#include <optional>
#include <string>
#include <vector>

#include "flinch/model/pack.hpp"

namespace flinch {

/// Resting energy requirement, kcal a day: figure x kg^0.75, the figure being the pack's; nothing
/// without one.
[[nodiscard]] std::optional<double> resting_energy_kcal(std::optional<double> figure,
                                                        DosedWeights const& dosed,
                                                        double weight_kg);

/// Body surface in square metres: figure x kg^(2/3), the figure being the pack's.
[[nodiscard]] double body_surface_m2(double figure, double weight_kg);

/// Weight to aim at, kg, from the score of body condition: weight / (1 + each point x (score -
/// ideal)). Nothing for a score that is not above the ideal: such a patient is not to lose weight.
[[nodiscard]] std::optional<double> weight_to_aim_at_kg(Slimming const& slimming,
                                                        DosedWeights const& dosed, double weight_kg,
                                                        double score);

/// The arithmetic of slimming.
struct WeightLoss {
  /// Loss from which it was seen to help.
  struct Benefit {
    double from_kg = 0;
    std::string text;
  };
  double aim_kg = 0;
  std::optional<double> kcal_a_day;  ///< resting energy at the weight to aim at
  double slowest_kg_a_week = 0;
  double fastest_kg_a_week = 0;
  std::vector<Benefit> benefits;
};

[[nodiscard]] std::optional<WeightLoss> weight_loss(Pack const& pack, Slimming const& slimming,
                                                    double weight_kg, double score);

}  // namespace flinch
