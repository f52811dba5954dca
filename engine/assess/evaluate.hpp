#pragma once
// Running a condition's program over the truths of its leaves.
#include <span>
#include <vector>

#include "flinch/assess/tables.hpp"

namespace flinch {

/// What a known answer makes of a test.
[[nodiscard]] Truth leaf_truth(Tables const& tables, Tables::Leaf const& leaf,
                               Answer const& answer);
[[nodiscard]] Truth test_truth(Tables const& tables, Test const& test, Answer const& answer);

/// The truth of a root's condition, with `truth_of` giving that of each leaf. `stack` is scratch of
/// at least `tables.deepest_stack()` elements.
template <class TruthOf>
[[nodiscard]] Truth evaluate(Tables const& tables, Tables::Root const& root,
                             std::vector<Truth>& stack, TruthOf const& truth_of) {
  using Kind = Tables::Step::Kind;
  auto* top = stack.data();
  for (auto const& step : tables.steps(root)) {
    if (step.kind == Kind::leaf) {
      *top++ = truth_of(tables.leaves()[step.detail]);
      continue;
    }
    top -= step.parts;
    auto const joined = at_least(step.detail, std::span<Truth const>(top, step.parts),
                                 [](Truth part) { return part; });
    *top++ = step.kind == Kind::negation ? negation(joined)
             : step.kind == Kind::unless ? unless(joined)
                                         : joined;
  }
  return stack.front();
}

/// What a condition comes to: 0 while it is unknown, 1 true, 2 false; for a rule over bands 1 + the
/// band. Less 1, it is the place among the weights of a rule (see `Tables::weight`).
template <class TruthOf>
[[nodiscard]] std::uint32_t root_outcome(Tables const& tables, Tables::Root const& root,
                                         std::vector<Truth>& stack, TruthOf const& truth_of) {
  if (!root.is_banded) {
    auto const truth = evaluate(tables, root, stack, truth_of);
    return truth == Truth::yes ? 1 : truth == Truth::no ? 2 : 0;
  }
  std::uint32_t outcome = 0;
  auto const bands = tables.steps(root);
  for (std::uint32_t band = 0; band < bands.size(); ++band)
    if (truth_of(tables.leaves()[bands[band].detail]) == Truth::yes) outcome = 1 + band;
  return outcome;
}

/// Of a condition without bands.
[[nodiscard]] constexpr Truth truth_of_outcome(std::uint32_t outcome) {
  return outcome == 0 ? Truth::unknown : outcome == 1 ? Truth::yes : Truth::no;
}

}  // namespace flinch
