#include "flinch/explain/rule.hpp"

#include <algorithm>

#include "explain/ways_to_fire.hpp"
#include "flinch/explain/what_if.hpp"

namespace flinch {
namespace {

constexpr std::size_t ways_given = 3;

struct FoundWays {
  std::vector<WayToFire> ways;
  std::vector<SignId> other_facts;
};

// What is left of a way when answers are left out that follow from others of it. One that was
// needed beside another may be so no more once that is gone, so all are tried again.
template <class DoesIt>
WayToFire shortened(WayToFire way, DoesIt const& does_it) {
  for (std::size_t i = way.changes.size(); i-- > 0 && way.changes.size() > 1;) {
    auto without = way;
    without.changes.erase(without.changes.begin() + static_cast<std::ptrdiff_t>(i));
    if (!does_it(without)) continue;
    way = std::move(without);
    i = way.changes.size();
  }
  return way;
}

// Of answers that would do alike the fewest; all in all the ways with the fewest.
template <class DoesIt>
std::vector<WayToFire> fewest_first(std::vector<std::vector<WayToFire>> const& possible,
                                    DoesIt const& does_it) {
  auto const is_less = [](WayToFire const& a, WayToFire const& b) {
    return a.changes.size() < b.changes.size();
  };
  std::vector<WayToFire> out;
  for (auto const& alike : possible) {
    std::vector<WayToFire> found;
    for (auto const& way : alike)
      if (does_it(way)) found.push_back(shortened(way, does_it));
    auto const best = std::min_element(found.begin(), found.end(), is_less);
    if (best != found.end() && std::find(out.begin(), out.end(), *best) == out.end())
      out.push_back(std::move(*best));
  }
  std::stable_sort(out.begin(), out.end(), is_less);
  if (out.size() > ways_given) out.resize(ways_given);
  return out;
}

template <class Fires>
FoundWays verified_ways(Tables const& tables, Assessor& assessor, Case const& patient,
                        Assessment const& before, ConditionNode const& condition,
                        Fires const& fires) {
  FoundWays out;
  auto const does_it = [&](WayToFire const& way) {
    auto const after = assessor.assess(with_changes(patient, way.changes));
    return fires(after) && !adds_contradiction(before.judgement, after.judgement);
  };
  auto const ways = [&](Patient facts) {
    return fewest_first(possible_ways(tables, patient, before, condition, facts), does_it);
  };
  out.ways = ways(Patient::as_it_is);
  if (!out.ways.empty()) return out;
  for (auto const& way : ways(Patient::another)) {
    for (auto const& change : way.changes)
      if (tables.pack()[change.sign].of_the_patient && before.find(change.sign) != nullptr)
        out.other_facts.push_back(change.sign);
    break;
  }
  return out;
}

}  // namespace

RuleExplanation explain_rule(Tables const& tables, Assessor& assessor, Case const& patient,
                             RuleId id) {
  auto const result = assessor.assess(patient);
  auto const& rule = tables.pack()[id];
  Evaluator const evaluator(tables, result.knowledge);
  RuleExplanation out{id, result.truth(id), {}, {}, {}, {}};
  for (auto const& band : rule.bands) out.bands.push_back(evaluator.truth(band.test));
  if (!rule.condition) return out;
  out.condition = evaluator.tree(*rule.condition);
  if (out.truth == Truth::yes) return out;
  auto found = verified_ways(tables, assessor, patient, result, *out.condition,
                             [&](auto const& after) { return after.truth(id) == Truth::yes; });
  out.ways = std::move(found.ways);
  out.other_facts = std::move(found.other_facts);
  return out;
}

AlarmExplanation explain_alarm(Tables const& tables, Assessor& assessor, Case const& patient,
                               AlarmId id) {
  auto const result = assessor.assess(patient);
  Evaluator const evaluator(tables, result.knowledge);
  auto const& alarm = tables.pack()[id];
  auto tree = evaluator.tree(alarm.condition);
  AlarmExplanation out{id, tree.truth, false, std::move(tree), {}, {}};
  out.is_held_back = alarm.unless() != nullptr && out.truth == Truth::no &&
                     evaluator.truth(alarm.trigger()) == Truth::yes;
  if (out.truth == Truth::yes) return out;
  auto found = verified_ways(tables, assessor, patient, result, out.condition,
                             [&](auto const& after) { return after.judgement.has_fired(id); });
  out.ways = std::move(found.ways);
  out.other_facts = std::move(found.other_facts);
  return out;
}

}  // namespace flinch
