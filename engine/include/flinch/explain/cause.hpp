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

/// A rule that is still unknown, and what it could do. What an overlap would take is taken off.
struct OpenRule {
  RuleId rule{};
  /// What its outcome is expected to tell about whether it is this cause: an outcome that is likely
  /// to come counts more than one that would weigh more but hardly ever comes.
  double bits = 0;
  double most_for = 0;        ///< the most that an outcome would add; 0: none speaks for it
  double most_against = 0;    ///< the most that one would take, below 0; 0: none
  std::vector<SignId> signs;  ///< whose answers would settle it
};

struct CauseExplanation {
  std::optional<CauseId> cause;     ///< none: none of the listed causes
  std::size_t rank = 0;             ///< from 1, none of the listed causes among them
  Ranked numbers;                   ///< prior, evidence and posterior
  double log_prior = 0;             ///< natural logarithm of the prior
  double log_scale = 0;             ///< posterior = exp(log_prior + evidence - log_scale)
  std::vector<RuleWeight> weights;  ///< strongest counted weight first
  std::vector<OpenRule> open;       ///< most bits first
};

/// Weights are natural logarithms of likelihood ratios; `decibans` shows them. What is summed here
/// with the base and normalised over all causes is the posterior shown. None of
/// the listed causes has no weights: it has the usual frequency of everything, and moves only as
/// the others do.
[[nodiscard]] CauseExplanation explain_cause(Tables const& tables, Assessment const& result,
                                             std::optional<CauseId> cause);

/// Rules that are still unknown and name the cause (for none of the listed causes: all that are
/// unknown), most bits first.
[[nodiscard]] std::vector<OpenRule> open_rules(Tables const& tables, Assessment const& result,
                                               std::optional<CauseId> cause);

}  // namespace flinch
