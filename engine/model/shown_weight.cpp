#include "flinch/model/shown_weight.hpp"

#include <fmt/format.h>

namespace flinch {

WeightUnit weight_unit(Pack const& pack) {
  constexpr double kitchen_scales_kg = 2;
  bool const is_small = pack[patient_sign::weight].high <= kitchen_scales_kg;
  return is_small ? WeightUnit{"g", 1000} : WeightUnit{"kg", 1};
}

std::string believed_weights(Pack const& pack) {
  auto const& weight = pack[patient_sign::weight];
  auto const unit = weight_unit(pack);
  return fmt::format("from {:.4g} to {:.4g} {}", weight.low * unit.in_a_kg,
                     weight.high * unit.in_a_kg, unit.name);
}

std::string weight_text(Pack const& pack, double kg) {
  auto const unit = weight_unit(pack);
  return fmt::format("{:.4g} {}", kg * unit.in_a_kg, unit.name);
}

}  // namespace flinch
