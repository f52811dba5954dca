#pragma once
// What the rules that are still unknown would do, by each way in which they may come out.
#include <cstdint>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

class OpenOutcomes {
 public:
  /// Keeps both by reference.
  OpenOutcomes(Tables const& tables, Assessment const& result);

  [[nodiscard]] bool is_open(RuleId rule) const { return is_open_[index(rule)]; }
  [[nodiscard]] bool names(RuleId rule, CauseId cause) const;

  /// What the outcome `band` (for `if` rules 0: true, 1: false) of an unknown rule would add to the
  /// score of a cause, in natural logarithms: its weight less what an overlap takes, of it or of
  /// the others in it. 0 where the rule does not name the cause.
  [[nodiscard]] double moved(RuleId rule, std::optional<CauseId> cause, std::uint32_t band) const;

  /// Bits that the outcome is expected to tell about "is it this cause": over the outcomes, each as
  /// often as the present ranking makes it, the divergence of the chance it would leave from the
  /// present one. Without overlaps that is the mutual information. Sources: Shannon CE (1948) A
  /// mathematical theory of communication. Bell System Technical Journal 27:379-423; Kullback S,
  /// Leibler RA (1951) On information and sufficiency. Ann Math Stat 22:79-86 (both from memory).
  [[nodiscard]] double bits_about(RuleId rule, std::optional<CauseId> cause) const;
  /// The same about which of two, one of them supposed.
  [[nodiscard]] double bits_between(RuleId rule, std::optional<CauseId> first,
                                    std::optional<CauseId> second) const;

 private:
  [[nodiscard]] double moved(RuleId rule, Tables::Entry const& entry, std::uint32_t band) const;
  /// Of a rule that weighs because nobody mentioned its sign, more than it weighs so.
  [[nodiscard]] double weight(RuleId rule, Tables::Entry const& entry, std::uint32_t band) const;
  /// What a weight would add to the others of its overlap.
  [[nodiscard]] double put_in(RuleId rule, Tables::Entry const& entry, double weight) const;
  /// How often the outcome is in patients with none of the causes that the rule names: held, and
  /// the shares of bands scaled to sum to one.
  [[nodiscard]] std::vector<double> usual(RuleId rule) const;

  Tables const& tables_;
  Judgement const& judgement_;
  std::vector<bool> is_open_;    ///< of each rule
  std::vector<bool> is_silent_;  ///< of each: weighs because nobody mentioned its sign
  /// Weights that count already, strongest first, by overlap, cause and whether they speak for it.
  std::map<std::pair<std::uint64_t, bool>, std::vector<double>> overlapping_;
};

}  // namespace flinch
