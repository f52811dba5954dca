#include "flinch/assess/evaluator.hpp"

#include <algorithm>

#include "assess/evaluate.hpp"

namespace flinch {
namespace {

// With `truth_of` giving the truth of each test.
template <class TruthOf>
Truth condition_truth(Pack const& pack, Condition const& condition, TruthOf const& truth_of) {
  if (condition.kind == Condition::Kind::test) return truth_of(condition.test);
  if (condition.kind == Condition::Kind::meaning)
    return condition_truth(pack, pack[condition.meaning].condition, truth_of);
  auto const joined =
      at_least(needed_parts(condition), condition.parts,
               [&](Condition const& part) { return condition_truth(pack, part, truth_of); });
  return condition.kind == Condition::Kind::negation ? negation(joined)
         : condition.kind == Condition::Kind::unless ? unless(joined)
                                                     : joined;
}

}  // namespace

Truth Evaluator::truth(Test const& test) const {
  auto const* known = knowledge_.find(test.sign);
  return known == nullptr ? Truth::unknown : test_truth(tables_, test, known->answer);
}

Truth Evaluator::truth(Condition const& condition) const {
  return condition_truth(tables_.pack(), condition, [&](Test const& test) { return truth(test); });
}

Truth Evaluator::truth_if(Condition const& condition, SignId sign, Truth supposed) const {
  return condition_truth(tables_.pack(), condition, [&](Test const& test) {
    return test.sign == sign ? supposed : truth(test);
  });
}

std::vector<SignId> Evaluator::behind(Condition const& condition) const {
  std::vector<SignId> out;
  collect(condition, out);
  return out;
}

std::vector<SignId> Evaluator::behind(Rule const& rule) const {
  return rule.condition ? behind(*rule.condition) : std::vector<SignId>{rule.over};
}

// A condition is what it is by those of its parts that agree with it: an `or` is true by its true
// parts, an `and` unknown by its unknown ones. A negation hangs on its one part,
// an `unless` only where that is known to hold.
void Evaluator::collect(Condition const& condition, std::vector<SignId>& out) const {
  if (condition.kind == Condition::Kind::test) {
    if (std::find(out.begin(), out.end(), condition.test.sign) == out.end())
      out.push_back(condition.test.sign);
    return;
  }
  if (condition.kind == Condition::Kind::meaning)
    return collect(tables_.pack()[condition.meaning].condition, out);
  auto const whole = truth(condition);
  if (condition.kind == Condition::Kind::unless) {
    if (whole == Truth::no) collect(condition.parts.front(), out);
    return;
  }
  for (auto const& part : condition.parts)
    if (condition.kind == Condition::Kind::negation || truth(part) == whole) collect(part, out);
}

ConditionNode Evaluator::tree(Condition const& condition) const {
  ConditionNode node{&condition, truth(condition), {}};
  if (condition.kind == Condition::Kind::meaning)
    node.parts.push_back(tree(tables_.pack()[condition.meaning].condition));
  for (auto const& part : condition.parts) node.parts.push_back(tree(part));
  return node;
}

}  // namespace flinch
