#pragma once
// How far two changed answers that bear on the same things can move each cause at most. The search
// for pairs assesses only those that could reach what is looked for.
#include <cstdint>
#include <vector>

#include "explain/change_effect.hpp"

namespace flinch {

/// All that changes of a sign can bear on: its wholes and parts and what applies by them included.
struct SignReach {
  std::vector<std::uint64_t> rules;     ///< a bit for each rule
  std::vector<std::uint64_t> overlaps;  ///< a bit for each overlap
  bool can_raise_alarm = false;         ///< one, not fired, for a higher tier than has been reached
  bool can_drop_alarm = false;          ///< one that has fired for the tier reached
};

/// A change: its sign's reach, and what it does alone.
struct Reaching {
  SignReach const& sign;
  ChangeEffect const& alone;
};

/// Bounds against the assessment without a change.
class PairReach {
 public:
  PairReach(Tables const& tables, Assessment const& before);
  [[nodiscard]] SignReach of_sign(SignId changed) const;

  /// Takes a pair in hand. What only one of them bears on moves as it does alone; for a rule that
  /// both bear on any outcome is allowed for. In an overlap that both bear on, a rule that only one
  /// of them settles moves its cause by anything up to the change of its own weight, however the
  /// others there stand: coming in it adds at most as much, and it never takes away.
  void take(Reaching const& a, Reaching const& b);
  /// Whether the pair in hand could put another cause first, or lead to a higher or lower tier.
  [[nodiscard]] bool could_change_first() const;
  [[nodiscard]] bool could_raise_tier() const;
  [[nodiscard]] bool could_lower_tier() const;

 private:
  struct Range {
    std::uint32_t cause = 0;
    double gain = 0;
    double loss = 0;
  };
  void range_rule(std::uint32_t rule, RuleOutcome const* now);
  [[nodiscard]] std::vector<bool> signs_moved_by(SignId changed) const;
  void reach_alarm(std::uint32_t alarm, SignReach& out) const;
  enum class Sharing : std::uint8_t { nothing, overlap, rule };
  [[nodiscard]] Sharing sharing(RuleId rule, SignReach const& a, SignReach const& b) const;
  void move(std::size_t cause, double up, double down);
  void add_alone(ChangeEffect const& alone, SignReach const& a, SignReach const& b);
  [[nodiscard]] double chance(std::size_t tier, std::vector<double> const& needing,
                              std::vector<double> const& others) const;

  Tables const& tables_;
  Assessment const& before_;
  std::vector<double> posteriors_;          ///< of each cause
  std::vector<double> scores_;              ///< of each cause: ln of its posterior
  std::vector<std::size_t> see_;            ///< tier of each cause; past the last: none
  std::vector<std::vector<Range>> ranges_;  ///< of each rule
  std::vector<Truth> alarms_;               ///< of each alarm
  std::vector<double> needing_;             ///< of each tier: the chance that it is needed
  std::vector<double> highest_, lowest_;    ///< of each cause, with the pair in hand
  std::vector<bool> is_moved_;              ///< of each cause, by the pair in hand
  std::vector<std::size_t> moved_;          ///< those
  bool can_raise_alarm_ = false;
  bool can_drop_alarm_ = false;
};

}  // namespace flinch
