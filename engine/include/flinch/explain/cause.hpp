#pragma once
// Why one cause stands where it does: every rule for and against it, and what is still open.
#include <cstdint>
#include <optional>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// What one rule did to the cause.
struct RuleWeight {
  RuleId rule{};
  Truth truth = Truth::unknown;
  std::uint32_t band = 0;  ///< for `over` rules
  double weight = 0;       ///< as if it stood alone, in natural logarithms
  double share = 1;        ///< what its overlap left of it
  double counted = 0;      ///< weight * share
  /// The rule of the same overlap that counted in full in its place, when `share` is below 1.
  std::optional<RuleId> stronger;
  std::vector<SignId> behind;  ///< the signs whose answers made it so
};

/// A rule that is still unknown, and the most that it could do.
struct OpenRule {
  RuleId rule{};
  double most_for = 0;        ///< the largest weight above 0 of its outcomes; 0: none
  double most_against = 0;    ///< the smallest weight below 0; 0: none
  std::vector<SignId> signs;  ///< whose answers would settle it
  [[nodiscard]] double reach() const;
};

struct CauseExplanation {
  CauseId cause{};
  std::size_t rank = 0;             ///< from 1; none of the listed causes is ranked as well
  Ranked numbers;                   ///< prior, evidence and posterior
  double log_prior = 0;             ///< natural logarithm of the prior
  double log_scale = 0;             ///< posterior = exp(log_prior + evidence - log_scale)
  std::vector<RuleWeight> weights;  ///< strongest counted weight first
  std::vector<OpenRule> open;       ///< furthest reach first
};

/// Weights are natural logarithms of likelihood ratios; `decibans` shows them. What is summed here
/// with the base and normalised over all causes is the posterior shown.
[[nodiscard]] CauseExplanation explain_cause(Tables const& tables, Assessment const& result,
                                             CauseId cause);

/// Rules that name the cause and are still unknown, furthest reach first. An overlap may leave less
/// of it.
[[nodiscard]] std::vector<OpenRule> open_rules(Tables const& tables, Assessment const& result,
                                               CauseId cause);

/// The signs whose answers made a rule come out as it did (or leave it unknown).
[[nodiscard]] std::vector<SignId> signs_behind(Tables const& tables, Assessment const& result,
                                               RuleId rule);

}  // namespace flinch
