// Danger signs that would hold an alarm back.
#include <fmt/format.h>

#include <algorithm>

#include "model/danger_signs.hpp"
#include "proofread/remarks.hpp"

namespace flinch {
namespace {

// The danger sign by which the test comes true, where it does.
std::optional<SignId> danger_in(Pack const& pack, DangerSigns const& dangers, Test const& test,
                                Polarity polarity) {
  auto const& sign = pack[test.sign];
  if (sign.of_the_patient || sign.kind == AnswerKind::number) return std::nullopt;
  if (sign.kind != AnswerKind::steps && sign.kind != AnswerKind::one_of)
    return polarity == Polarity::positive ? dangers.inside(test.sign) : std::nullopt;
  for (std::uint32_t value = 0; value < sign.values.size(); ++value) {
    bool const is_in = test.kind == Test::Kind::at_least
                           ? value >= test.values.front()
                           : std::binary_search(test.values.begin(), test.values.end(), value);
    if (is_in == (polarity == Polarity::positive) && dangers.has(test.sign, value))
      return test.sign;
  }
  return std::nullopt;
}

}  // namespace

void find_calming_dangers(Pack const& pack, Remarks& remarks) {
  for (auto const& alarm : pack.alarms) {
    auto const* unless = alarm.unless();
    if (unless == nullptr) continue;
    DangerSigns const dangers(pack, alarm.see);
    auto const statement = alarm.floor_of ? pack[*alarm.floor_of].at : alarm.at;
    walk_tests(pack, *unless, [&](Condition const& leaf, Polarity polarity) {
      auto const danger = danger_in(pack, dangers, leaf.test, polarity);
      if (!danger) return;
      remarks.add(Code::danger_calms, leaf.at, {statement},
                  fmt::format("the danger sign `{}` would hold back the alarm `{}`",
                              pack[*danger].name, alarm.name),
                  "an alarm of the same tier, or of a more urgent one, uses it as true: a dog with "
                  "one danger sign more would be less urgent",
                  "ask for the mild fact by a sign of its own, or say why it may calm here with "
                  "`accept danger-calms \"...\"`");
    });
  }
}

}  // namespace flinch
