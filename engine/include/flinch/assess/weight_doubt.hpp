#pragma once
// Whether the weight that was told fits the breed, or the size: a slip of the keyboard, or pounds
// taken for kilograms, must not become a dose.
//
//   if (auto const doubt = doubt_of_weight(pack, knowledge)) ask(doubt_words(pack, *doubt));
#include <cstdint>
#include <optional>
#include <string>

#include "flinch/assess/knowledge.hpp"
#include "flinch/model/pack.hpp"

namespace flinch {

/// A weight far outside what breed or size lets expect, that nobody has confirmed.
struct WeightDoubt {
  double kg = 0;
  WeightRange usual;                   ///< of a grown one of the breed or size
  std::optional<std::uint32_t> breed;  ///< index in the pack's table
  std::optional<std::uint32_t> size;   ///< index of the size that was told, without a breed

  [[nodiscard]] bool is_too_heavy() const { return kg > usual.high_kg; }
};

/// The doubt, if there is one. A breed tells by its adult weight, or else by that of its size
/// class; without a breed, or for a crossbreed (no size class in a table that has them), the size
/// that was told does; without either nothing is doubted. One that is not known to be grown (the
/// pack's `grown at`) may weigh any less. A weight is confirmed by an answer to `weight_confirmed`
/// that is the same: of another weight it says nothing.
[[nodiscard]] std::optional<WeightDoubt> doubt_of_weight(Pack const& pack,
                                                         Knowledge const& knowledge);
[[nodiscard]] std::optional<WeightDoubt> doubt_of_weight(Pack const& pack, Case const& patient);

/// The weight by which amounts are computed: believable (see `is_believable_kg`) and not doubted.
[[nodiscard]] std::optional<double> weight_for_amounts(Pack const& pack,
                                                       Knowledge const& knowledge);
[[nodiscard]] std::optional<double> weight_for_amounts(Pack const& pack, Case const& patient);

/// Within 1 %: told in pounds and in kilograms, or rounded.
[[nodiscard]] bool is_same_weight(double kg, double other_kg);

/// Whether answers to the sign bear on whether the weight is doubted.
[[nodiscard]] bool bears_on_weight(SignId sign);

/// "45 kg is far more than usual: a grown Chihuahua weighs 1.5 to 3 kg"
[[nodiscard]] std::string doubt_words(Pack const& pack, WeightDoubt const& doubt);

}  // namespace flinch
