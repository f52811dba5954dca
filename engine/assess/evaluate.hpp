#pragma once
// Running a condition's program over the truths of its leaves.
#include <span>
#include <vector>

#include "flinch/assess/tables.hpp"

namespace flinch {

/// What a known answer makes of a test.
[[nodiscard]] Truth leaf_truth(Tables const& tables, Tables::Leaf const& leaf,
                               Answer const& answer);

/// The truth of what a step joins, of `parts` whose truths `truth_of` gives.
template <class Part, class TruthOf>
[[nodiscard]] Truth joined_truth(Tables::Step const& step, std::span<Part> parts,
                                 TruthOf const& truth_of) {
  using Kind = Tables::Step::Kind;
  auto result = truth_of(parts.front());
  std::uint32_t yes = 0;
  std::uint32_t unknown = 0;
  for (auto const& each : parts) {
    auto const part = truth_of(each);
    if (step.kind == Kind::all) result = both(result, part);
    if (step.kind == Kind::any) result = either(result, part);
    yes += part == Truth::yes ? 1 : 0;
    unknown += part == Truth::unknown ? 1 : 0;
  }
  if (step.kind == Kind::negation) result = negation(result);
  if (step.kind == Kind::count) result = at_least(step.detail, yes, unknown);
  return result;
}

/// The truth of a root's condition, with `truth_of` giving that of each leaf. `stack` is scratch of
/// at least `tables.deepest_stack()` elements.
template <class TruthOf>
[[nodiscard]] Truth evaluate(Tables const& tables, Tables::Root const& root,
                             std::vector<Truth>& stack, TruthOf const& truth_of) {
  using Kind = Tables::Step::Kind;
  std::size_t height = 0;
  for (auto const& step : tables.steps(root)) {
    if (step.kind == Kind::leaf) {
      stack[height++] = truth_of(tables.leaves()[step.detail]);
      continue;
    }
    height -= step.parts;
    auto const parts = std::span<Truth const>(stack).subspan(height, step.parts);
    auto const result = joined_truth(step, parts, [](Truth part) { return part; });
    stack[height++] = result;
  }
  return stack.front();
}

}  // namespace flinch
