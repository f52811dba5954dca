#include "flinch/explain/what_if.hpp"

#include <algorithm>

namespace flinch {
namespace {

// Both lists are in the order of the pack; `visit(id, a or null, b or null)` for each that is in
// one.
template <class T, class Id, class Visit>
void pair_up(std::vector<T> const& before, std::vector<T> const& after, Id const& id,
             Visit const& visit) {
  auto a = before.begin();
  auto b = after.begin();
  while (a != before.end() || b != after.end()) {
    bool const take_a = a != before.end() && (b == after.end() || id(*a) <= id(*b));
    bool const take_b = b != after.end() && (a == before.end() || id(*b) <= id(*a));
    visit(take_a ? &*a : nullptr, take_b ? &*b : nullptr);
    if (take_a) ++a;
    if (take_b) ++b;
  }
}

RuleState state_of(RuleOutcome const* outcome) {
  if (outcome == nullptr || outcome->truth == Truth::unknown) return {};
  return {outcome->truth, outcome->band};
}

}  // namespace

Case with_changes(Case patient, std::span<Change const> changes) {
  for (auto const& change : changes) {
    std::erase_if(patient.answers, [&](auto const& answer) { return answer.first == change.sign; });
    std::erase(patient.cannot_tell, change.sign);
    if (change.answer)
      patient.answers.emplace_back(change.sign, *change.answer);
    else
      patient.cannot_tell.push_back(change.sign);
  }
  return patient;
}

bool adds_contradiction(Judgement const& before, Judgement const& after) {
  auto const& known = before.contradictions;
  return std::any_of(after.contradictions.begin(), after.contradictions.end(),
                     [&](Contradiction const& c) {
                       return std::find(known.begin(), known.end(), c) == known.end();
                     });
}

WhatIf what_if(Assessor& assessor, Case const& patient, std::span<Change const> changes) {
  WhatIf out{assessor.assess(patient), assessor.assess(with_changes(patient, changes)), {}, {}};
  pair_up(
      out.before.rules, out.after.rules, [](RuleOutcome const& o) { return o.rule; },
      [&](RuleOutcome const* a, RuleOutcome const* b) {
        RuleShift const shift{a != nullptr ? a->rule : b->rule, state_of(a), state_of(b)};
        if (shift.before != shift.after) out.rules.push_back(shift);
      });
  pair_up(
      out.before.alarms, out.after.alarms, [](AlarmOutcome const& o) { return o.alarm; },
      [&](AlarmOutcome const* a, AlarmOutcome const* b) {
        AlarmShift const shift{a != nullptr ? a->alarm : b->alarm,
                               a != nullptr ? a->truth : Truth::unknown,
                               b != nullptr ? b->truth : Truth::unknown};
        if (shift.before != shift.after) out.alarms.push_back(shift);
      });
  return out;
}

}  // namespace flinch
