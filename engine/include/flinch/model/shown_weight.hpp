#pragma once
// In which unit weights of the patient are told.
#include <string>
#include <string_view>

#include "flinch/model/pack.hpp"

namespace flinch {

struct WeightUnit {
  std::string_view name;  ///< `kg` or `g`
  double in_a_kg = 1;     ///< how many of them
};

/// Grams where no weight above 2 kg is believed (a judgement: such patients are weighed on kitchen
/// scales), else kilograms.
[[nodiscard]] WeightUnit weight_unit(Pack const& pack);

/// "32.66 kg", "38.5 g": to four digits.
[[nodiscard]] std::string weight_text(Pack const& pack, double kg);

/// The weights that the pack believes: "from 0.5 to 130 kg", "from 10 to 100 g".
[[nodiscard]] std::string believed_weights(Pack const& pack);

}  // namespace flinch
