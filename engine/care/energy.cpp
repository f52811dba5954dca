#include "flinch/care/energy.hpp"

#include <cmath>

#include "flinch/care/dose.hpp"

namespace flinch {
std::optional<double> resting_energy_kcal(DosedWeights const& dosed, double weight_kg) {
  if (!is_believable_kg(dosed, weight_kg)) return std::nullopt;
  return 70 * std::pow(weight_kg, 0.75);
}

double body_surface_m2(double figure, double weight_kg) {
  return figure * std::pow(weight_kg, 2.0 / 3.0);
}

std::optional<double> weight_to_aim_at_kg(DosedWeights const& dosed, double weight_kg,
                                          double score) {
  if (!is_believable_kg(dosed, weight_kg) || !(score > 5 && score <= 9)) return std::nullopt;
  return weight_kg / (1 + 0.1 * (score - 5));
}

std::optional<WeightLoss> weight_loss(DosedWeights const& dosed, double weight_kg, double score) {
  auto const aim = weight_to_aim_at_kg(dosed, weight_kg, score);
  if (!aim) return std::nullopt;
  auto const energy = resting_energy_kcal(dosed, *aim);
  if (!energy) return std::nullopt;
  return WeightLoss{
      *aim, *energy, weight_kg * 0.0610, weight_kg * 0.0885, weight_kg * 0.005, weight_kg * 0.02};
}

}  // namespace flinch
