#include "model/danger_signs.hpp"

#include <algorithm>

namespace flinch {

DangerSigns::DangerSigns(Pack const& pack, std::optional<TierId> least_urgent)
    : pack_(pack),
      signs_(pack.signs.size()),
      values_(pack.signs.size()),
      inside_(pack.signs.size()) {
  for (auto const& alarm : pack.alarms)
    if (!least_urgent || alarm.see <= *least_urgent)
      walk_tests(pack, alarm.trigger(),
                 [&](Condition const& leaf, Polarity polarity) { add(leaf.test, polarity); });
  // Of several parts the first stands for all.
  for (std::uint32_t i = 0; i < pack.signs.size(); ++i)
    if (has(SignId{i}))
      for (auto whole = pack.signs[i].part_of; whole; whole = pack[*whole].part_of)
        if (!inside_[index(*whole)]) inside_[index(*whole)] = SignId{i};
}

bool DangerSigns::has(SignId sign, std::uint32_t value) const {
  auto const& values = values_[index(sign)];
  return std::find(values.begin(), values.end(), value) != values.end();
}

void DangerSigns::add(Test const& test, Polarity polarity) {
  auto const& sign = pack_[test.sign];
  if (sign.of_the_patient || traits(sign).is_number) return;
  if (traits(sign).has_values) {
    for (std::uint32_t value = 0; value < sign.values.size(); ++value) {
      bool const is_in = asks_for(test, value);
      bool const counts = traits(sign).has_order
                              ? value > 0 && is_in == (polarity == Polarity::positive)
                              : is_in && polarity == Polarity::positive;
      if (!counts) continue;
      signs_[index(test.sign)] = true;
      values_[index(test.sign)].push_back(value);
    }
    return;
  }
  if (polarity == Polarity::positive) signs_[index(test.sign)] = true;
}

std::optional<SignId> DangerSigns::inside(SignId sign) const {
  return has(sign) ? sign : inside_[index(sign)];
}

std::optional<SignId> DangerSigns::related(SignId sign) const {
  for (auto whole = pack_[sign].part_of; whole; whole = pack_[*whole].part_of)
    if (has(*whole)) return whole;
  if (auto const danger = inside(sign)) return danger;
  std::optional<SignId> found;
  if (auto const& applies = pack_[sign].applies_if)
    walk_tests(pack_, *applies, [&](Condition const& leaf, Polarity) {
      if (has(leaf.test.sign)) found = leaf.test.sign;
    });
  return found;
}

}  // namespace flinch
