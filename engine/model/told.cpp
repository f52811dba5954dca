#include "model/told.hpp"

#include <algorithm>

#include "model/walk.hpp"

namespace flinch {

Told::Told(Pack const& pack)
    : pack_(pack),
      values_(pack.signs.size()),
      stretches_(pack.signs.size()),
      is_taken_(pack.signs.size()) {
  for (auto const& rule : pack.rules)
    if (rule.condition) add(*rule.condition);
  for (auto const& alarm : pack.alarms) add(alarm.trigger());
  for (auto const& care : pack.care)
    if (care.taken) is_taken_[index(*care.taken)] = true;
}

void Told::add(Condition const& condition) {
  walk_tests(pack_, condition, [&](Condition const& leaf, Polarity polarity) {
    auto const& test = leaf.test;
    auto const place = index(test.sign);
    if (traits(pack_[test.sign]).is_number) {
      stretches_[place].push_back({test, polarity == Polarity::negative});
      return;
    }
    std::uint64_t values = 0;
    for (auto const value : test.values) values |= std::uint64_t{1} << value;
    values_[place] |= polarity == Polarity::positive ? values : ~values;
  });
}

bool Told::operator()(SignId sign, Answer const& answer) const {
  auto const& its = pack_[sign];
  if (its.of_the_patient) return false;
  if (auto const* yes = std::get_if<bool>(&answer)) return *yes;
  if (auto const* findings = std::get_if<Findings>(&answer)) return findings->found_somewhere;
  if (auto const* choice = std::get_if<Choice>(&answer))
    return traits(its).has_order ? choice->index > 0
                                 : (values_[index(sign)] >> choice->index & 1U) != 0;
  auto const value = std::get<double>(answer);
  if (is_taken_[index(sign)] && value > 0) return true;
  auto const& stretches = stretches_[index(sign)];
  return std::any_of(stretches.begin(), stretches.end(), [&](Stretch const& stretch) {
    return lies_within(stretch.test, value) != stretch.is_negated;
  });
}

}  // namespace flinch
