// Alarms that a further danger sign would silence, and circular applicability.
#include <fmt/format.h>

#include <algorithm>

#include "model/checks.hpp"
#include "model/danger_signs.hpp"
#include "model/walk.hpp"

namespace flinch {
namespace {

class SilencedAlarms {
 public:
  SilencedAlarms(Pack const& pack, Report& report) : pack_(pack), report_(report), danger_(pack) {}

  void check(Alarm const& alarm) {
    if (alarm.on_purpose) return;
    walk_tests(pack_, alarm.trigger(), [&](Condition const& leaf, Polarity polarity) {
      if (auto const culprit = silencer(leaf.test, polarity)) {
        report_
            .error(
                Code::danger_silenced, leaf.at,
                fmt::format("alarm `{}` would become less true when the danger sign `{}` is added",
                            alarm.name, pack_[*culprit].name))
            .notes.push_back({remedy(alarm, leaf.test), {}});
      }
    });
  }

 private:
  [[nodiscard]] std::string remedy(Alarm const& alarm, Test const& test) const {
    auto const& sign = pack_[test.sign];
    bool const is_first =
        traits(sign).has_order && test.kind == Test::Kind::is_value && test.values.front() == 0;
    if (is_first)
      return fmt::format(
          "`{}` is the first step of `{}`, the usual one: turn the steps round if "
          "it is the worst",
          sign.values.front().name, sign.name);
    return alarm.floor_of ? "a worse step is seen as soon: write `at least STEP`"
                          : "leave it out, or say why it stands with `on purpose`";
  }

  // The danger sign whose adding, or worsening, makes this test work against its alarm.
  [[nodiscard]] std::optional<SignId> silencer(Test const& test, Polarity polarity) const {
    auto const& sign = pack_[test.sign];
    if (sign.of_the_patient || traits(sign).is_number) return std::nullopt;
    if (traits(sign).has_order) {
      if (danger_.has(test.sign) && falls_when_worse(sign, test, polarity)) return test.sign;
      return std::nullopt;
    }
    if (polarity == Polarity::positive) return std::nullopt;
    if (traits(sign).has_values) {
      for (auto const value : test.values)
        if (danger_.has(test.sign, value)) return test.sign;
      return std::nullopt;
    }
    return danger_.related(test.sign);
  }

  [[nodiscard]] static bool falls_when_worse(Sign const& sign, Test const& test,
                                             Polarity polarity) {
    bool was_true = false;
    for (std::uint32_t value = 0; value < sign.values.size(); ++value) {
      bool const is_in = test.kind == Test::Kind::at_least
                             ? value >= test.values.front()
                             : std::binary_search(test.values.begin(), test.values.end(), value);
      bool const is_true = is_in == (polarity == Polarity::positive);
      if (was_true && !is_true) return true;
      was_true = is_true;
    }
    return false;
  }

  Pack const& pack_;
  Report& report_;
  DangerSigns danger_;
};

}  // namespace

void check_danger_signs(Pack const& pack, std::vector<bool> const& vary, Report& report) {
  SilencedAlarms silenced(pack, report);
  for (std::size_t i = 0; i < pack.alarms.size(); ++i)
    if (vary[i]) silenced.check(pack.alarms[i]);
}

void check_applies_cycles(Pack const& pack, Report& report) {
  enum class State : std::uint8_t { unseen, open, done };
  std::vector<State> states(pack.signs.size(), State::unseen);
  constexpr std::size_t deepest_chain = 64;
  auto const visit = [&](auto const& self, SignId id, std::size_t depth) -> void {
    if (states[index(id)] != State::unseen) return;
    states[index(id)] = State::open;
    auto const follow = [&](SignId next, Place at) {
      if (states[index(next)] == State::open)
        report.error(Code::applies_cycle, at,
                     fmt::format("whether `{}` applies depends on itself", pack[next].name));
      else if (depth == deepest_chain)
        report.error(Code::too_deep, at,
                     fmt::format("whether `{}` applies hangs on more than {} other signs in a row",
                                 pack[id].name, deepest_chain));
      else
        self(self, next, depth + 1);
    };
    if (auto const whole = pack[id].part_of) follow(*whole, pack[id].at);
    if (auto const& applies = pack[id].applies_if)
      walk_tests(pack, *applies,
                 [&](Condition const& leaf, Polarity) { follow(leaf.test.sign, leaf.at); });
    states[index(id)] = State::done;
  };
  for (std::uint32_t i = 0; i < pack.signs.size(); ++i) visit(visit, SignId{i}, 0);
}

}  // namespace flinch
