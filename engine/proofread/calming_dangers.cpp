// Danger signs that would hold an alarm back.
#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>
#include <utility>

#include "model/danger_signs.hpp"
#include "proofread/remarks.hpp"

namespace flinch {
namespace {

// What may hold back the alarms of one tier: the danger signs that make a condition true, or false.
class CalmingDangers {
 public:
  CalmingDangers(Pack const& pack, TierId see) : pack_(pack), dangers_(pack, see) {
    for (auto const& alarm : pack.alarms)
      if (alarm.see <= see)
        walk_tests(pack, alarm.trigger(), [&](Condition const& leaf, Polarity polarity) {
          if (leaf.test.kind == Test::Kind::in_range)
            numbers_[leaf.test.sign].emplace_back(&leaf.test, polarity);
        });
  }

  // Those by which the test comes true, or false under a `not`; each once.
  [[nodiscard]] std::vector<SignId> of(Test const& test, Polarity polarity) {
    found_.clear();
    seen_.clear();
    add(test, polarity);
    return found_;
  }

 private:
  void add(Test const& test, Polarity polarity) {
    auto const& sign = pack_[test.sign];
    if (sign.of_the_patient) return;
    if (auto const danger = danger_in(test, polarity)) note(*danger);
    // What cannot apply is a no, to it and to its parts.
    if (polarity != Polarity::negative || !traits(sign).may_be_absent) return;
    for (std::optional<SignId> one = test.sign; one; one = pack_[*one].part_of) {
      if (std::find(seen_.begin(), seen_.end(), *one) != seen_.end()) return;
      seen_.push_back(*one);
      if (auto const& applies = pack_[*one].applies_if)
        walk_tests(pack_, *applies,
                   [&](Condition const& leaf, Polarity gate) { add(leaf.test, opposite(gate)); });
    }
  }

  [[nodiscard]] std::optional<SignId> danger_in(Test const& test, Polarity polarity) const {
    auto const& sign = pack_[test.sign];
    if (traits(sign).is_number) {
      auto const others = numbers_.find(test.sign);
      bool const is_danger =
          others != numbers_.end() &&
          std::any_of(others->second.begin(), others->second.end(), [&](auto const& other) {
            return meet(test, polarity, *other.first, other.second);
          });
      return is_danger ? std::optional(test.sign) : std::nullopt;
    }
    if (!traits(sign).has_values)
      return polarity == Polarity::positive ? dangers_.inside(test.sign) : std::nullopt;
    for (std::uint32_t value = 0; value < sign.values.size(); ++value) {
      bool const is_in = asks_for(test, value);
      if (is_in == (polarity == Polarity::positive) && dangers_.has(test.sign, value))
        return test.sign;
    }
    return std::nullopt;
  }

  // Whether one number lies in both, a range under `not` being all outside it.
  [[nodiscard]] static bool meet(Test const& a, Polarity of_a, Test const& b, Polarity of_b) {
    auto const lies_in = [](Test const& test, Polarity polarity, double value) {
      bool const is_low = value > test.low || (test.low_included && value == test.low);
      bool const is_high = value < test.high || (test.high_included && value == test.high);
      return (is_low && is_high) == (polarity == Polarity::positive);
    };
    constexpr double far = std::numeric_limits<double>::max();
    // The truth of both is one between two neighbouring ends, and at each of them.
    std::vector<double> ends{-far, a.low, a.high, b.low, b.high, far};
    for (auto& end : ends) end = std::clamp(end, -far, far);
    std::sort(ends.begin(), ends.end());
    for (std::size_t i = ends.size(); i-- > 1;) ends.push_back(ends[i] / 2 + ends[i - 1] / 2);
    return std::any_of(ends.begin(), ends.end(), [&](double value) {
      return lies_in(a, of_a, value) && lies_in(b, of_b, value);
    });
  }

  void note(SignId danger) {
    if (std::find(found_.begin(), found_.end(), danger) == found_.end()) found_.push_back(danger);
  }

  Pack const& pack_;
  DangerSigns dangers_;
  std::map<SignId, std::vector<std::pair<Test const*, Polarity>>> numbers_;  ///< of the alarms
  std::vector<SignId> found_, seen_;
};

}  // namespace

void find_calming_dangers(Pack const& pack, Remarks& remarks) {
  std::map<TierId, CalmingDangers> of_tiers;
  for (auto const& alarm : pack.alarms) {
    auto const* unless = alarm.unless();
    if (unless == nullptr) continue;
    auto& dangers = of_tiers.try_emplace(alarm.see, pack, alarm.see).first->second;
    auto const statement = alarm.floor_of ? pack[*alarm.floor_of].at : alarm.at;
    walk_tests(pack, *unless, [&](Condition const& leaf, Polarity polarity) {
      for (auto const danger : dangers.of(leaf.test, polarity)) {
        auto const& name = pack[danger].name;
        remarks.add(
            Code::danger_calms, leaf.at, {statement},
            fmt::format("the danger sign `{}` would hold back the alarm `{}`", name, alarm.name),
            fmt::format("an alarm of the same tier, or of a more urgent one, uses it as true: {} "
                        "with one danger sign more would be less urgent",
                        with_article(pack.words.one)),
            fmt::format("ask for the mild fact by a sign of its own, or say why it may calm here "
                        "with `accept danger-calms \"{}: ...\"`",
                        name));
        remarks.must_name(name);
      }
    });
  }
}

}  // namespace flinch
