#pragma once
// From a case to its judgement.
#include <span>
#include <vector>

#include "assess/effects.hpp"
#include "assess/known_answers.hpp"
#include "flinch/assess/assessment.hpp"

namespace flinch {

/// Holds scratch memory. Only what the known answers bear on is looked at: a condition none of
/// whose signs is known is unknown, and adds nothing.
class Assessor::Judge {
 public:
  explicit Judge(Tables const& tables);

  /// Takes the place of the last one. The case must stay until the next.
  Judgement const& judge(Case const& patient);

  [[nodiscard]] Tables const& tables() const { return tables_; }
  // Of the case judged last:
  [[nodiscard]] KnownAnswers const& known() const { return known_; }
  /// The alarms that known answers bear on, in no order.
  [[nodiscard]] std::span<AlarmOutcome const> alarms() const { return alarms_; }
  /// The rules that weigh because nobody mentioned their sign, in the order of the pack.
  [[nodiscard]] std::span<RuleId const> unmentioned() const { return unmentioned_; }
  /// What rules with these outcomes, in the order of the pack, did to the causes that they name:
  /// the factors of the posteriors are made of the same.
  [[nodiscard]] std::vector<Contribution> const& contributions(std::span<Decided const> decided) {
    return effects_.contributions(decided);
  }
  /// As `root_outcome`.
  [[nodiscard]] std::uint32_t outcome(RuleId rule) { return known_.outcome(tables_.place(rule)); }

 private:
  void find_unmentioned(Case const& patient);
  void weigh_unmentioned();
  void touch();
  /// A rule or alarm, with what is to be done with its outcome.
  struct RootTarget {
    std::uint32_t first_state = 0;
    bool is_alarm = false;
    std::uint32_t subject = 0;  ///< the alarm, or the rule's cluster
    std::uint64_t place = 0;    ///< of a rule in its cluster
  };
  void add_to_root(std::uint32_t root, std::uint32_t part);
  void add_to_cluster(std::uint32_t cluster, std::uint64_t part);
  void evaluate_touched();
  void weigh();
  void apply(Effect const& effect);
  void apply_cluster(std::uint32_t cluster);
  void normalise(std::size_t cause);
  void normalise();
  void take_exponents();
  void set_posteriors();
  void set_tier_chances();
  void set_ranking_tier();
  void set_alarm_tier(Case const& patient);
  [[nodiscard]] Swallowed swallowed(Case const& patient);

  Tables const& tables_;
  KnownAnswers known_;
  Effects effects_;
  Judgement out_;
  std::vector<AlarmOutcome> alarms_;
  // A weight is kept in out_.posteriors until all are normalised: a probability times 2 to the
  // power of `exponents_`, which stay 0 unless the weight would leave the range of a double.
  std::vector<int> exponents_;
  double reach_ = 0;  ///< how far a weight may be from 1, in natural logarithms
  bool has_exponents_ = false;
  // What the known answers bear on: the first so many of the lists. Their states are 1 + what the
  // answers add; of all others, and between cases, 0.
  std::vector<RootTarget> root_targets_;  ///< by root
  std::vector<std::uint32_t> roots_, clusters_;
  std::size_t root_count_ = 0;
  std::size_t cluster_count_ = 0;
  std::vector<std::uint32_t> root_states_;
  std::vector<std::uint64_t> cluster_states_;
  std::vector<Decided> decided_;
  std::vector<RuleId> unmentioned_;
  std::vector<std::uint32_t> possible_;  ///< alarms of each tier that may still fire
};

}  // namespace flinch
