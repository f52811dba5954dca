#pragma once
// Running a condition's program over the truths of its leaves.
#include <span>
#include <vector>

#include "flinch/assess/tables.hpp"

namespace flinch {

/// A test made flat.
[[nodiscard]] Tables::Leaf flat(Test const& test);

/// What a known answer makes of a test.
[[nodiscard]] Truth leaf_truth(Tables const& tables, Tables::Leaf const& leaf,
                               Answer const& answer);

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
    auto result = parts.front();
    std::uint32_t yes = 0;
    std::uint32_t unknown = 0;
    for (auto const part : parts) {
      if (step.kind == Kind::all) result = both(result, part);
      if (step.kind == Kind::any) result = either(result, part);
      yes += part == Truth::yes ? 1 : 0;
      unknown += part == Truth::unknown ? 1 : 0;
    }
    if (step.kind == Kind::negation) result = negation(result);
    if (step.kind == Kind::count) result = at_least(step.detail, yes, unknown);
    stack[height++] = result;
  }
  return stack.front();
}

}  // namespace flinch
