#pragma once
// What clusters of rules jointly say of the causes, kept once worked out: the same few states come
// up in case after case.
#include <cstdint>
#include <span>
#include <unordered_map>
#include <vector>

#include "assess/clusters.hpp"
#include "assess/overlaps.hpp"
#include "assess/zeroed.hpp"

namespace flinch {

/// What a cause's probability is multiplied by, before normalising.
struct Factor {
  std::uint32_t cause = 0;
  double factor = 1;
};

struct Effect {
  std::span<Factor const> factors;
  double reach = 0;  ///< how far it moves a cause at most: |ln| of the product of its factors
};

/// One rule's outcome in a state; `band` as in `Tables::weight`.
struct Decided {
  RuleId rule{};
  std::uint32_t band = 0;
};

/// Scratch memory of one assessor, of bounded size. An effect is good until the next is asked for.
class Effects {
 public:
  /// How far one factor moves a cause, in natural logarithms: a product of two such factors is
  /// still a number. An effect that reaches further has several factors for a cause.
  static constexpr double furthest = 300;

  explicit Effects(Tables const& tables);

  /// Of the sign's own rules, its answer lying in `cell`.
  [[nodiscard]] Effect of_answer(SignId sign, std::uint32_t cell);
  /// Of a cluster whose states are kept, in this state.
  [[nodiscard]] Effect of_state(std::uint32_t cluster, std::uint64_t state);
  /// What rules with these outcomes, in the order of the pack, each do to the causes that they
  /// name, and what overlaps leave of it. Good until the next call.
  [[nodiscard]] std::vector<Contribution> const& contributions(std::span<Decided const> decided);
  /// Of rules with these outcomes, in the order of the pack; worked out each time.
  [[nodiscard]] Effect of_outcomes(std::span<Decided const> decided);

 private:
  struct Kept {
    std::uint32_t first = 0;
    std::uint32_t count = 0;
    double reach = 0;
  };
  [[nodiscard]] Effect effect(std::uint32_t number) const {
    auto const& [first, count, reach] = kept_[number - 1];
    return {std::span(factors_).subspan(first, count), reach};
  }
  [[nodiscard]] std::uint32_t& number_of(std::uint32_t cluster, std::uint64_t state);
  [[nodiscard]] std::uint32_t keep(std::span<Decided const> decided);
  [[nodiscard]] Kept append(std::span<Decided const> decided, std::vector<Factor>& out);

  Tables const& tables_;
  // Of each state 1 + its place in `kept_`, or 0: of the numbered, and of the coded ones by their
  // cluster.
  Zeroed<std::uint32_t> numbered_;
  std::unordered_map<std::uint32_t, std::unordered_map<std::uint64_t, std::uint32_t>> coded_;
  std::vector<Kept> kept_;
  std::vector<Factor> factors_;
  std::vector<Factor> passing_;  ///< of a state that is not kept
  std::vector<Decided> decided_;
  std::vector<Contribution> contributions_;
  OverlapShares shares_;
  std::vector<double> sums_;  ///< of each cause; 0 between uses
  std::vector<std::uint32_t> causes_;
  std::vector<Truth> stack_;
};

}  // namespace flinch
