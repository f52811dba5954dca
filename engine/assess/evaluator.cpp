#include "flinch/assess/evaluator.hpp"

#include <algorithm>

#include "assess/evaluate.hpp"

namespace flinch {
namespace {

// With `truth_of` giving the truth of each test, and whether it stands below `unless`.
template <class TruthOf>
Truth condition_truth(Pack const& pack, Condition const& condition, bool is_below_unless,
                      TruthOf const& truth_of) {
  if (condition.kind == Condition::Kind::test) return truth_of(condition.test, is_below_unless);
  if (condition.kind == Condition::Kind::meaning)
    return condition_truth(pack, pack[condition.meaning].condition, is_below_unless, truth_of);
  bool const is_below = is_below_unless || condition.kind == Condition::Kind::unless;
  auto const joined = at_least(
      needed_parts(condition), condition.parts,
      [&](Condition const& part) { return condition_truth(pack, part, is_below, truth_of); });
  return condition.kind == Condition::Kind::negation ? negation(joined)
         : condition.kind == Condition::Kind::unless ? unless(joined)
                                                     : joined;
}

}  // namespace

Truth Evaluator::truth(Test const& test) const {
  auto const* known = knowledge_.find(test.sign);
  return known == nullptr ? Truth::unknown : test_truth(tables_, test, known->answer);
}

Truth Evaluator::truth(Condition const& condition) const { return truth(condition, false); }

Truth Evaluator::truth(Condition const& condition, bool is_below_unless) const {
  return condition_truth(tables_.pack(), condition, is_below_unless,
                         [&](Test const& test, bool is_below) {
                           bool const is_open = is_below && knowledge_.is_disputed(test.sign);
                           return is_open ? Truth::unknown : truth(test);
                         });
}

Truth Evaluator::truth_if(Condition const& condition, SignId sign, Truth supposed) const {
  return condition_truth(tables_.pack(), condition, false, [&](Test const& test, bool is_below) {
    if (test.sign == sign) return supposed;
    return is_below && knowledge_.is_disputed(test.sign) ? Truth::unknown : truth(test);
  });
}

std::vector<SignId> Evaluator::behind(Condition const& condition) const {
  std::vector<SignId> out;
  collect(condition, false, out);
  return out;
}

std::vector<SignId> Evaluator::behind(Rule const& rule) const {
  return rule.condition ? behind(*rule.condition) : std::vector<SignId>{rule.over};
}

// A condition is what it is by those of its parts that agree with it: an `or` is true by its true
// parts, an `and` unknown by its unknown ones. A negation hangs on its one part,
// an `unless` only where that is known to hold.
void Evaluator::collect(Condition const& condition, bool is_below_unless,
                        std::vector<SignId>& out) const {
  if (condition.kind == Condition::Kind::test) {
    if (std::find(out.begin(), out.end(), condition.test.sign) == out.end())
      out.push_back(condition.test.sign);
    return;
  }
  if (condition.kind == Condition::Kind::meaning)
    return collect(tables_.pack()[condition.meaning].condition, is_below_unless, out);
  auto const whole = truth(condition, is_below_unless);
  if (condition.kind == Condition::Kind::unless) {
    if (whole == Truth::no) collect(condition.parts.front(), true, out);
    return;
  }
  for (auto const& part : condition.parts)
    if (condition.kind == Condition::Kind::negation || truth(part, is_below_unless) == whole)
      collect(part, is_below_unless, out);
}

ConditionNode Evaluator::tree(Condition const& condition) const { return tree(condition, false); }

ConditionNode Evaluator::tree(Condition const& condition, bool is_below_unless) const {
  ConditionNode node{&condition, truth(condition, is_below_unless), {}};
  bool const is_below = is_below_unless || condition.kind == Condition::Kind::unless;
  if (condition.kind == Condition::Kind::meaning)
    node.parts.push_back(tree(tables_.pack()[condition.meaning].condition, is_below));
  for (auto const& part : condition.parts) node.parts.push_back(tree(part, is_below));
  return node;
}

}  // namespace flinch
