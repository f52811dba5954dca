#include "flinch/explain/rule.hpp"

#include <algorithm>

#include "explain/ways_to_fire.hpp"
#include "flinch/explain/what_if.hpp"

namespace flinch {
namespace {

constexpr std::size_t ways_given = 3;

template <class Fires>
std::vector<WayToFire> verified_ways(Tables const& tables, Assessor& assessor, Case const& dog,
                                     ConditionNode const& condition, Fires const& fires) {
  std::vector<WayToFire> out;
  for (auto& way : possible_ways(tables, dog, condition)) {
    if (out.size() == ways_given) break;
    if (fires(assessor.assess(with_changes(dog, way.changes)))) out.push_back(std::move(way));
  }
  return out;
}

}  // namespace

RuleExplanation explain_rule(Tables const& tables, Assessor& assessor, Case const& dog, RuleId id) {
  auto const result = assessor.assess(dog);
  auto const& rule = tables.pack()[id];
  RuleExplanation out{id, Truth::unknown, {}, {}, {}};
  for (auto const& outcome : result.rules)
    if (outcome.rule == id) out.truth = outcome.truth;
  for (auto const& band : rule.bands) out.bands.push_back(test_truth(tables, result, band.test));
  if (!rule.condition) return out;
  out.condition = condition_tree(tables, result, *rule.condition);
  if (out.truth != Truth::yes)
    out.ways = verified_ways(tables, assessor, dog, *out.condition, [&](Assessment const& after) {
      return std::any_of(after.rules.begin(), after.rules.end(), [&](RuleOutcome const& o) {
        return o.rule == id && o.truth == Truth::yes;
      });
    });
  return out;
}

AlarmExplanation explain_alarm(Tables const& tables, Assessor& assessor, Case const& dog,
                               AlarmId id) {
  auto const result = assessor.assess(dog);
  auto tree = condition_tree(tables, result, tables.pack()[id].condition);
  AlarmExplanation out{id, tree.truth, std::move(tree), {}};
  if (out.truth != Truth::yes)
    out.ways = verified_ways(tables, assessor, dog, out.condition, [&](Assessment const& after) {
      return std::any_of(after.alarms.begin(), after.alarms.end(), [&](AlarmOutcome const& o) {
        return o.alarm == id && o.truth == Truth::yes;
      });
    });
  return out;
}

}  // namespace flinch
