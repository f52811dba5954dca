#include "flinch/care/energy.hpp"

#include <cmath>

#include "flinch/care/dose.hpp"

namespace flinch {
std::optional<double> resting_energy_kcal(std::optional<double> figure, DosedWeights const& dosed,
                                          double weight_kg) {
  if (!figure || !is_believable_kg(dosed, weight_kg)) return std::nullopt;
  return *figure * std::pow(weight_kg, 0.75);
}

double body_surface_m2(double figure, double weight_kg) {
  return figure * std::pow(weight_kg, 2.0 / 3.0);
}

std::optional<double> weight_to_aim_at_kg(Slimming const& slimming, DosedWeights const& dosed,
                                          double weight_kg, double score) {
  if (!is_believable_kg(dosed, weight_kg) || !(score > slimming.ideal_score)) return std::nullopt;
  return weight_kg / (1 + slimming.each_point * (score - slimming.ideal_score));
}

std::optional<WeightLoss> weight_loss(Pack const& pack, Slimming const& slimming, double weight_kg,
                                      double score) {
  auto const aim = weight_to_aim_at_kg(slimming, pack.doses, weight_kg, score);
  if (!aim) return std::nullopt;
  WeightLoss out{*aim,
                 resting_energy_kcal(pack.resting_energy, pack.doses, *aim),
                 weight_kg * slimming.slowest_a_week,
                 weight_kg * slimming.fastest_a_week,
                 {}};
  for (auto const& [share, text] : slimming.benefits)
    out.benefits.push_back({weight_kg * share, text});
  return out;
}

}  // namespace flinch
