#pragma once
// How far a change of one answer can move each cause at most, whatever is changed with it. The
// search for pairs leaves out those that cannot reach what is looked for.
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// Bounds on what the evidence of each cause can gain and lose, in natural logarithms; and which
/// alarms the change can bear on.
struct ChangeReach {
  std::vector<double> gain;
  std::vector<double> loss;
  bool can_raise_alarm =
      false;  ///< bears on one, not fired, for a higher tier than has been reached
  bool can_drop_alarm = false;  ///< bears on one that has fired for the tier reached
};

/// Takes reaches against the assessment without a change.
class ReachTaker {
 public:
  ReachTaker(Tables const& tables, Assessment const& before);
  /// For any change of the sign. In an overlap a rule that comes in adds at most its own weight and
  /// one that goes takes at most its own, so the bounds of rules simply add up.
  [[nodiscard]] ChangeReach take(SignId changed) const;

  /// Whether changes of both signs together could put another cause first.
  [[nodiscard]] bool could_change_first(ChangeReach const& a, ChangeReach const& b) const;
  /// Whether they could lead to a higher, or a lower tier.
  [[nodiscard]] bool could_raise_tier(ChangeReach const& a, ChangeReach const& b) const;
  [[nodiscard]] bool could_lower_tier(ChangeReach const& a, ChangeReach const& b) const;

 private:
  [[nodiscard]] std::vector<bool> signs_moved_by(SignId changed) const;
  [[nodiscard]] double most_for_tier(std::size_t tier, ChangeReach const& a,
                                     ChangeReach const& b) const;
  [[nodiscard]] double least_for_tier(std::size_t tier, ChangeReach const& a,
                                      ChangeReach const& b) const;
  void reach_rule(std::uint32_t rule, ChangeReach& out) const;
  void reach_alarm(std::uint32_t alarm, ChangeReach& out) const;

  Tables const& tables_;
  Assessment const& before_;
  std::vector<double> scores_;                ///< of each cause: ln of its posterior
  std::vector<std::size_t> see_;              ///< tier of each cause; past the last: none
  std::vector<RuleOutcome const*> outcomes_;  ///< of each rule, or null
  std::vector<Truth> alarms_;                 ///< of each alarm
};

}  // namespace flinch
