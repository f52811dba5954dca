#include "care/gates.hpp"

#include <algorithm>

#include "assess/evaluate.hpp"

namespace flinch {
namespace {

Truth truth_of_test(Tables const& tables, Assessment const& result, Test const& test) {
  auto const* known = result.find(test.sign);
  return known == nullptr ? Truth::unknown
                          : leaf_truth(tables, Tables::leaf_of(test), known->answer);
}

// A condition is what it is by those of its parts that agree with it: an `or` is true by its true
// parts, an `and` unknown by its unknown ones. A negation hangs on its one part.
void collect(Tables const& tables, Assessment const& result, Condition const& condition,
             std::vector<SignId>& out) {
  if (condition.kind == Condition::Kind::test) {
    if (std::find(out.begin(), out.end(), condition.test.sign) == out.end())
      out.push_back(condition.test.sign);
    return;
  }
  if (condition.kind == Condition::Kind::meaning)
    return collect(tables, result, tables.pack()[condition.meaning].condition, out);
  auto const whole = truth_of(tables, result, condition);
  for (auto const& part : condition.parts)
    if (condition.kind == Condition::Kind::negation || truth_of(tables, result, part) == whole)
      collect(tables, result, part, out);
}

}  // namespace

Truth truth_of(Tables const& tables, Assessment const& result, Condition const& condition) {
  using Kind = Condition::Kind;
  if (condition.kind == Kind::test) return truth_of_test(tables, result, condition.test);
  if (condition.kind == Kind::meaning)
    return truth_of(tables, result, tables.pack()[condition.meaning].condition);
  auto all = Truth::yes;
  auto any = Truth::no;
  std::uint32_t yes = 0;
  std::uint32_t unknown = 0;
  for (auto const& part : condition.parts) {
    auto const truth = truth_of(tables, result, part);
    all = both(all, truth);
    any = either(any, truth);
    yes += truth == Truth::yes ? 1 : 0;
    unknown += truth == Truth::unknown ? 1 : 0;
  }
  switch (condition.kind) {
    case Kind::negation:
      return negation(all);
    case Kind::all:
      return all;
    case Kind::count:
      return at_least(condition.needed, yes, unknown);
    default:
      return any;
  }
}

std::vector<SignId> signs_behind(Tables const& tables, Assessment const& result,
                                 Condition const& condition) {
  std::vector<SignId> out;
  collect(tables, result, condition, out);
  return out;
}

}  // namespace flinch
