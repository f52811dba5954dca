// Conditions that can never be true, or never be false.
#include <fmt/format.h>

#include "model/checks.hpp"
#include "model/worlds.hpp"

namespace flinch {
namespace {

constexpr std::size_t most_tests_tried = 400000;  // over all combinations, for one condition

void check(Pack const& pack, std::string_view kind, std::string const& name,
           Condition const& condition, Report& report) {
  Worlds worlds(pack, {&condition});
  if (!worlds.start(most_tests_tried)) return;
  bool seen_true = false;
  bool seen_false = false;
  do {
    (worlds.holds(condition) ? seen_true : seen_false) = true;
  } while (!(seen_true && seen_false) && worlds.next());
  if (!seen_true)
    report.error(Code::never_true, condition.at,
                 fmt::format("the condition of {} `{}` can never be true", kind, name));
  else if (!seen_false)
    report.error(Code::never_false, condition.at,
                 fmt::format("the condition of {} `{}` can never be false", kind, name));
}

}  // namespace

void check_conditions_vary(Pack const& pack, Report& report) {
  for (auto const& rule : pack.rules)
    if (rule.condition) check(pack, "rule", rule.name, *rule.condition, report);
  for (auto const& alarm : pack.alarms)
    check(pack, alarm.floor_of ? "floor" : "alarm", alarm.name, alarm.condition, report);
}

}  // namespace flinch
