#pragma once
// Conditions held against what is known of a patient: their truth, and the answers behind it.
//
//   Evaluator const evaluator(tables, result.knowledge);
//   evaluator.truth(*rule.condition);
//   evaluator.behind(*rule.condition);  // whose answers made it so, or which are missing
#include <vector>

#include "flinch/assess/knowledge.hpp"
#include "flinch/assess/tables.hpp"
#include "flinch/assess/truth.hpp"

namespace flinch {

/// One part of a condition with its truth; a meaning has its condition as the only part.
struct ConditionNode {
  Condition const* condition = nullptr;  ///< in the pack, which must outlive this
  Truth truth = Truth::unknown;
  std::vector<ConditionNode> parts;
};

class Evaluator {
 public:
  /// Keeps both by reference.
  Evaluator(Tables const& tables, Knowledge const& knowledge)
      : tables_(tables), knowledge_(knowledge) {}

  [[nodiscard]] Truth truth(Test const& test) const;
  /// Of a condition of a rule or alarm: the truth that the assessment gave it. Below `unless` an
  /// answer that clashes with another is unknown: a clash holds no alarm back.
  [[nodiscard]] Truth truth(Condition const& condition) const;
  /// The same if every test on the sign came out as `supposed`, all else as it is.
  [[nodiscard]] Truth truth_if(Condition const& condition, SignId sign, Truth supposed) const;

  /// The signs whose answers made the condition true (or false): for "any of" that holds the parts
  /// that hold, for "all of" that fails the parts that fail. Of an unknown condition what is
  /// pending: the signs that leave it so, those under a part that is decided already left aside.
  /// Each once, in the order of the condition.
  [[nodiscard]] std::vector<SignId> behind(Condition const& condition) const;

  /// The same of a rule; of an `over` rule the sign whose bands it tells apart.
  [[nodiscard]] std::vector<SignId> behind(Rule const& rule) const;

  /// The condition with the truth of each of its parts.
  [[nodiscard]] ConditionNode tree(Condition const& condition) const;

 private:
  [[nodiscard]] Truth truth(Condition const& condition, bool is_below_unless) const;
  void collect(Condition const& condition, bool is_below_unless, std::vector<SignId>& out) const;
  [[nodiscard]] ConditionNode tree(Condition const& condition, bool is_below_unless) const;

  Tables const& tables_;
  Knowledge const& knowledge_;
};

}  // namespace flinch
