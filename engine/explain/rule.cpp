#include "flinch/explain/rule.hpp"

#include <algorithm>

#include "explain/change_effect.hpp"
#include "explain/ways_to_fire.hpp"
#include "flinch/explain/what_if.hpp"

namespace flinch {
namespace {

constexpr std::size_t ways_given = 3;

struct FoundWays {
  std::vector<WayToFire> ways;
  std::vector<SignId> other_facts;
};

template <class Fires>
FoundWays verified_ways(Tables const& tables, Assessor& assessor, Case const& dog,
                        Assessment const& before, ConditionNode const& condition,
                        Fires const& fires) {
  FoundWays out;
  auto const does_it = [&](WayToFire const& way) {
    auto const after = assessor.assess(with_changes(dog, way.changes));
    return fires(after) && !adds_contradiction(before, after);
  };
  for (auto& way : possible_ways(tables, dog, before, condition, Dog::as_it_is)) {
    if (out.ways.size() == ways_given) break;
    if (does_it(way)) out.ways.push_back(std::move(way));
  }
  if (!out.ways.empty()) return out;
  for (auto const& way : possible_ways(tables, dog, before, condition, Dog::another)) {
    if (!does_it(way)) continue;
    for (auto const& change : way.changes)
      if (tables.pack()[change.sign].of_the_dog && before.find(change.sign) != nullptr)
        out.other_facts.push_back(change.sign);
    break;
  }
  return out;
}

template <class Outcomes, class IsIt>
bool is_yes(Outcomes const& outcomes, IsIt const& is_it) {
  return std::any_of(outcomes.begin(), outcomes.end(),
                     [&](auto const& o) { return is_it(o) && o.truth == Truth::yes; });
}

}  // namespace

RuleExplanation explain_rule(Tables const& tables, Assessor& assessor, Case const& dog, RuleId id) {
  auto const result = assessor.assess(dog);
  auto const& rule = tables.pack()[id];
  RuleExplanation out{id, Truth::unknown, {}, {}, {}, {}};
  for (auto const& outcome : result.rules)
    if (outcome.rule == id) out.truth = outcome.truth;
  for (auto const& band : rule.bands) out.bands.push_back(test_truth(tables, result, band.test));
  if (!rule.condition) return out;
  out.condition = condition_tree(tables, result, *rule.condition);
  if (out.truth == Truth::yes) return out;
  auto found = verified_ways(tables, assessor, dog, result, *out.condition, [&](auto const& after) {
    return is_yes(after.rules, [&](RuleOutcome const& o) { return o.rule == id; });
  });
  out.ways = std::move(found.ways);
  out.other_facts = std::move(found.other_facts);
  return out;
}

AlarmExplanation explain_alarm(Tables const& tables, Assessor& assessor, Case const& dog,
                               AlarmId id) {
  auto const result = assessor.assess(dog);
  auto tree = condition_tree(tables, result, tables.pack()[id].condition);
  AlarmExplanation out{id, tree.truth, std::move(tree), {}, {}};
  if (out.truth == Truth::yes) return out;
  auto found = verified_ways(tables, assessor, dog, result, out.condition, [&](auto const& after) {
    return is_yes(after.alarms, [&](AlarmOutcome const& o) { return o.alarm == id; });
  });
  out.ways = std::move(found.ways);
  out.other_facts = std::move(found.other_facts);
  return out;
}

}  // namespace flinch
