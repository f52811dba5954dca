#pragma once
// How the evidence moved one cause from its base rate to its chance, rule by rule.
#include <optional>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// The chance of the cause after a rule, all rules before it taken in as well.
struct Rung {
  std::optional<RuleId> rule;  ///< none: the base rate, or all rules that do not name the cause
  Truth truth = Truth::unknown;
  std::uint32_t band = 0;
  double counted = 0;  ///< for the cause, in natural logarithms
  double probability = 0;
  /// Of the rules that do not name the cause, the one or two that lower or raise its chance most.
  std::vector<RuleOutcome> strongest;
};

/// The base rate first; then the rules that name the cause, strongest first, each counted for every
/// cause that it names; last, where there are any, the rules that name only other causes. The last
/// rung is the posterior.
[[nodiscard]] std::vector<Rung> ladder(Tables const& tables, Assessment const& result,
                                       CauseId cause);

}  // namespace flinch
