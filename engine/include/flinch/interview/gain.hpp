#pragma once
// How much the answer to a sign would tell about the causes: mutual information, in bits.
//
// For a rule that is still undecided, the information between "does its condition hold" (or "which
// band") and "which cause is it": I = H(p_bar) - sum over causes of P(c) H(p_c), where p_c is the
// rule's frequency with cause c, p_bar its mean under the present ranking, and H the entropy.
// Causes that the rule does not name share the usual frequency u, so that only its entries are
// visited: the cost grows with the entries of the undecided rules, not with signs times causes.
// Source of the measure: Shannon CE (1948) A mathematical theory of communication. Bell System
// Technical Journal 27:379-423 (from memory).
//
// What is left out, and how: a sign that bears on several rules is worth its best single rule (they
// may say the same thing); a condition that needs several unknown signs is shared evenly among
// them; overlaps are ignored. Frequencies are held within the pack's limits as in the ranking, and
// the shares of bands are then scaled to sum to one.
#include <optional>
#include <span>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// What asking for one sign is expected to tell.
struct Gain {
  double bits = 0;             ///< mutual information with the cause; 0 or more
  std::optional<RuleId> rule;  ///< the rule it comes from
};

/// Scratch memory over shared tables: one a thread.
class Gains {
 public:
  explicit Gains(Tables const& tables);

  /// One for each sign of the pack; nothing for signs on which no undecided rule hangs. Valid until
  /// the next call.
  [[nodiscard]] std::span<Gain const> weigh(Assessment const& result);

  /// Bits that the outcome of one rule, taken as undecided, would tell under these posteriors (one
  /// a cause, in the order of the pack).
  [[nodiscard]] double rule_bits(RuleId rule, std::span<double const> posteriors) const;

 private:
  void weigh_rule(RuleId id, Assessment const& result);

  /// Where a rule's numbers start in `frequencies_` (usual first, then entry by entry) and in
  /// `entropies_` (likewise), and how many outcomes it has: 1 for "it holds", else its bands.
  struct Row {
    std::uint32_t first_frequency = 0;
    std::uint32_t first_entropy = 0;
    std::uint32_t outcomes = 0;
  };

  Tables const& tables_;
  std::vector<double> frequencies_;
  std::vector<double> entropies_;
  std::vector<Row> rows_;
  std::vector<Gain> gains_;
};

}  // namespace flinch
