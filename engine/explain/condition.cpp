#include "flinch/explain/condition.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "assess/evaluate.hpp"
#include "flinch/explain/reasons.hpp"

namespace flinch {
namespace {

Truth joined(Condition const& condition, std::vector<ConditionNode> const& parts) {
  auto result = parts.front().truth;
  std::uint32_t yes = 0;
  std::uint32_t unknown = 0;
  for (auto const& part : parts) {
    if (condition.kind == Condition::Kind::all) result = both(result, part.truth);
    if (condition.kind == Condition::Kind::any) result = either(result, part.truth);
    yes += part.truth == Truth::yes ? 1 : 0;
    unknown += part.truth == Truth::unknown ? 1 : 0;
  }
  if (condition.kind == Condition::Kind::negation) return negation(result);
  if (condition.kind == Condition::Kind::count) return at_least(condition.needed, yes, unknown);
  return result;
}

void collect_signs(ConditionNode const& node, std::vector<SignId>& out) {
  if (node.parts.empty()) {
    auto const sign = node.condition->test.sign;
    if (std::find(out.begin(), out.end(), sign) == out.end()) out.push_back(sign);
    return;
  }
  // Parts of another truth had no say; under `not` the only part has the opposite one.
  bool const turns = node.condition->kind == Condition::Kind::negation;
  auto const wanted = turns ? negation(node.truth) : node.truth;
  for (auto const& part : node.parts)
    if (part.truth == wanted) collect_signs(part, out);
}

std::string amount_text(Sign const& sign, double value) {
  return sign.unit.name.empty() ? fmt::format("{:.4g}", value)
                                : fmt::format("{:.4g} {}", value, sign.unit.name);
}

std::string range_text(Sign const& sign, Test const& test) {
  auto const low = amount_text(sign, test.low);
  auto const high = amount_text(sign, test.high);
  if (std::isfinite(test.low) && std::isfinite(test.high))
    return fmt::format("{} {} to {}{}", sign.label, low, test.high_included ? "" : "under ", high);
  if (std::isfinite(test.low))
    return test.low_included ? fmt::format("{} {} or more", sign.label, low)
                             : fmt::format("{} over {}", sign.label, low);
  return test.high_included ? fmt::format("{} {} or less", sign.label, high)
                            : fmt::format("{} under {}", sign.label, high);
}

}  // namespace

Truth test_truth(Tables const& tables, Assessment const& result, Test const& test) {
  auto const* known = result.find(test.sign);
  if (known == nullptr) return Truth::unknown;
  return leaf_truth(tables, Tables::leaf_of(test), known->answer);
}

ConditionNode condition_tree(Tables const& tables, Assessment const& result,
                             Condition const& condition) {
  ConditionNode node{&condition, Truth::unknown, {}};
  if (condition.kind == Condition::Kind::test) {
    node.truth = test_truth(tables, result, condition.test);
    return node;
  }
  if (condition.kind == Condition::Kind::meaning)
    node.parts.push_back(
        condition_tree(tables, result, tables.pack()[condition.meaning].condition));
  for (auto const& part : condition.parts)
    node.parts.push_back(condition_tree(tables, result, part));
  node.truth = joined(condition, node.parts);
  return node;
}

std::vector<SignId> signs_behind(ConditionNode const& node) {
  std::vector<SignId> out;
  collect_signs(node, out);
  return out;
}

std::string test_text(Pack const& pack, Test const& test) {
  auto const& sign = pack[test.sign];
  switch (test.kind) {
    case Test::Kind::holds:
      return sign.label;
    case Test::Kind::at_site:
      return fmt::format("{} at {}", sign.label, site_text(pack, test.mark));
    case Test::Kind::is_value: {
      std::string values;
      for (auto const value : test.values)
        values += (values.empty() ? "" : " or ") + sign.values[value].label;
      return fmt::format("{}: {}", sign.label, values);
    }
    case Test::Kind::at_least:
      return fmt::format("{}: at least {}", sign.label, sign.values[test.values.front()].label);
    case Test::Kind::in_range:
      return range_text(sign, test);
    case Test::Kind::in_group:
      return fmt::format("breed: {}", pack.groups[index(test.group)].title);
  }
  return sign.label;
}

std::string node_text(Pack const& pack, Condition const& condition) {
  switch (condition.kind) {
    case Condition::Kind::test:
      return test_text(pack, condition.test);
    case Condition::Kind::meaning:
      return pack[condition.meaning].title;
    case Condition::Kind::negation:
      return "not";
    case Condition::Kind::all:
      return "all of";
    case Condition::Kind::any:
      return "any of";
    case Condition::Kind::count:
      return fmt::format("at least {} of", condition.needed);
  }
  return {};
}

}  // namespace flinch
