#pragma once
// How a rule or an alarm came out: its condition part by part, and what would make it fire.
#include <optional>
#include <vector>

#include "flinch/assess/assessment.hpp"
#include "flinch/assess/evaluator.hpp"

namespace flinch {

/// Answers that would make a condition true.
struct WayToFire {
  std::vector<Change> changes;  ///< one a sign
  friend bool operator==(WayToFire const&, WayToFire const&) = default;
};

struct RuleExplanation {
  RuleId rule{};
  Truth truth = Truth::unknown;
  std::optional<ConditionNode> condition;  ///< for `if` rules
  std::vector<Truth> bands;                ///< for `over` rules: whether the patient is in each
  std::vector<WayToFire> ways;             ///< for `if` rules that are not true, fewest first
  /// Where there are no ways: known facts of the patient (its age, its breed) that would have to be
  /// others; none where that would not do either.
  std::vector<SignId> other_facts;
};

struct AlarmExplanation {
  AlarmId alarm{};
  Truth truth = Truth::unknown;
  bool is_held_back = false;  ///< only its `unless` keeps it from firing
  ConditionNode condition;
  std::vector<WayToFire> ways;  ///< of one that has not fired
  std::vector<SignId> other_facts;
};

/// Each way is verified by assessing the case with its changes, and adds no contradiction to those
/// of the case; at most three are given, those with the fewest changes. A fact of the patient that
/// is known is not changed; one that is not known can be told like any answer.
[[nodiscard]] RuleExplanation explain_rule(Tables const& tables, Assessor& assessor,
                                           Case const& patient, RuleId rule);
[[nodiscard]] AlarmExplanation explain_alarm(Tables const& tables, Assessor& assessor,
                                             Case const& patient, AlarmId alarm);

}  // namespace flinch
