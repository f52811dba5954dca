// Conditions that can never be true, or never be false.
#include <fmt/format.h>

#include <algorithm>

#include "model/checks.hpp"
#include "model/fit.hpp"
#include "model/typical_answers.hpp"
#include "model/walk.hpp"
#include "model/worlds.hpp"

namespace flinch {
namespace {

constexpr std::size_t most_tests_tried = 400000;  // over all combinations, for one condition

class Variation {
 public:
  Variation(Pack const& pack, Report& report) : pack_(pack), report_(report) {}

  // Whether the condition can be true and can be false; if not, that is reported of `subject`.
  bool varies(Condition const& condition, std::string const& subject) {
    auto const [can_hold, can_fail] = outcomes(condition);
    if (!can_hold)
      explain(report_.error(Code::never_true, condition.at,
                            fmt::format("{} can never be true", subject)),
              condition);
    else if (!can_fail)
      explain(report_.error(Code::never_false, condition.at,
                            fmt::format("{} can never be false", subject)),
              condition);
    return can_hold && can_fail;
  }

  bool can_hold(Condition const& condition) { return outcomes(condition).can_hold; }

 private:
  struct Outcomes {
    bool can_hold = false;
    bool can_fail = false;
  };

  // With more combinations than can be tried nothing is said: both are taken to be possible.
  Outcomes outcomes(Condition const& condition) {
    Outcomes out;
    Worlds worlds(pack_, {&condition});
    if (!worlds.start(most_tests_tried)) return {true, true};
    do {
      (worlds.holds(condition) ? out.can_hold : out.can_fail) = true;
    } while (!(out.can_hold && out.can_fail) && worlds.next());
    return out;
  }

  // What is believed of a number that a test tells nothing of: at an end of it, or beyond.
  void explain(Diagnostic& error, Condition const& condition) {
    std::vector<SignId> told;
    walk_tests(pack_, condition, [&](Condition const& leaf, Polarity) {
      auto const id = leaf.test.sign;
      auto const& sign = pack_[id];
      bool const is_told = std::find(told.begin(), told.end(), id) != told.end();
      if (is_told || !traits(sign).is_number || tells_apart(sign, leaf.test)) return;
      told.push_back(id);
      error.notes.push_back(
          {fmt::format("`{}` lies between {}", sign.name, believed_text(pack_, id)), {}});
    });
  }

  static bool tells_apart(Sign const& sign, Test const& test) {
    auto const numbers = typical_numbers({test.low, test.high}, sign.low, sign.high);
    auto const holding = std::count_if(numbers.begin(), numbers.end(),
                                       [&](double number) { return lies_within(test, number); });
    return holding > 0 && holding < static_cast<std::ptrdiff_t>(numbers.size());
  }

  Pack const& pack_;
  Report& report_;
};

}  // namespace

std::vector<bool> check_conditions_vary(Pack const& pack, Report& report) {
  Variation variation(pack, report);
  for (auto const& sign : pack.signs)
    if (sign.applies_if && !sign.of_the_patient)
      variation.varies(*sign.applies_if, fmt::format("the `applies if` of sign `{}`", sign.name));
  for (auto const& meaning : pack.means)
    variation.varies(meaning.condition, fmt::format("the meaning `{}`", meaning.name));
  for (auto const& rule : pack.rules)
    if (rule.condition)
      variation.varies(*rule.condition, fmt::format("the condition of rule `{}`", rule.name));
  std::vector<bool> vary;
  for (auto const& alarm : pack.alarms) {
    auto const kind = alarm.floor_of ? "floor" : "alarm";
    auto const* unless = alarm.unless();
    auto const subject = fmt::format("the condition of {} `{}`", kind, alarm.name);
    bool const is_sound = variation.varies(alarm.trigger(), subject);
    vary.push_back(is_sound);
    if (!is_sound || unless == nullptr) continue;
    vary.back() =
        variation.varies(*unless, fmt::format("the `unless` of {} `{}`", kind, alarm.name));
    if (!vary.back() || variation.can_hold(alarm.condition)) continue;
    vary.back() = false;
    report
        .error(Code::never_true, unless->at,
               fmt::format("{} `{}` can never go off: its `unless` holds wherever its {} does",
                           kind, alarm.name, alarm.floor_of ? "sign" : "`if`"))
        .notes.push_back(
            {"`unless` names a mild fact that may be so or not when the danger is there", {}});
  }
  for (auto const& care : pack.care) {
    if (care.fit_if)
      variation.varies(*care.fit_if, fmt::format("the `fit if` of care `{}`", care.name));
    for (auto const& [gates, clause] : {std::pair{&care.never_if, "never if"},
                                        {&care.ask_vet_if, "ask vet if"},
                                        {&care.stop_if, "stop if"}})
      for (auto const& gate : *gates)
        variation.varies(gate.condition, fmt::format("a `{}` of care `{}`", clause, care.name));
  }
  return vary;
}

}  // namespace flinch
