#pragma once
// How a rule or an alarm came out: its condition part by part, and what would make it fire.
#include <optional>
#include <vector>

#include "flinch/explain/condition.hpp"

namespace flinch {

/// A test that would have to come out otherwise.
struct Wanted {
  Test test;
  Truth truth = Truth::yes;
};

/// Answers that would make a condition true.
struct WayToFire {
  std::vector<Wanted> tests;    ///< that do not yet come out as they must
  std::vector<Change> changes;  ///< answers that make them so, one a sign
};

struct RuleExplanation {
  RuleId rule{};
  Truth truth = Truth::unknown;
  std::optional<ConditionNode> condition;  ///< for `if` rules
  std::vector<Truth> bands;                ///< for `over` rules: whether the dog is in each
  std::vector<WayToFire> ways;             ///< for `if` rules that are not true, fewest first
};

struct AlarmExplanation {
  AlarmId alarm{};
  Truth truth = Truth::unknown;
  ConditionNode condition;
  std::vector<WayToFire> ways;  ///< of one that has not fired
};

/// Each way is verified by assessing the case with its changes; at most three are given, those with
/// the fewest changes. None are found where the dog itself (its age, its breed) would have to be
/// another.
[[nodiscard]] RuleExplanation explain_rule(Tables const& tables, Assessor& assessor,
                                           Case const& dog, RuleId rule);
[[nodiscard]] AlarmExplanation explain_alarm(Tables const& tables, Assessor& assessor,
                                             Case const& dog, AlarmId alarm);

}  // namespace flinch
