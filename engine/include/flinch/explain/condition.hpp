#pragma once
// A condition taken apart: the truth of each part, and the answers behind it.
#include <string>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// One part of a condition with its truth; a meaning has its condition as the only part.
struct ConditionNode {
  Condition const* condition = nullptr;  ///< in the pack, which must outlive this
  Truth truth = Truth::unknown;
  std::vector<ConditionNode> parts;
};

/// The condition with the truth that the known answers give to each of its parts. The top of the
/// tree of a rule or alarm has the truth that the assessment gave it.
[[nodiscard]] ConditionNode condition_tree(Tables const& tables, Assessment const& result,
                                           Condition const& condition);

/// The truth of a single test on the known answers.
[[nodiscard]] Truth test_truth(Tables const& tables, Assessment const& result, Test const& test);

/// The signs whose answers made the condition true (or false): for "any of" that holds the parts
/// that hold, for "all of" that fails the parts that fail. Of an unknown condition the signs that
/// leave it so. Each once, in the order of the condition.
[[nodiscard]] std::vector<SignId> signs_behind(ConditionNode const& node);

/// A test in words: "limping", "tender to touch at left elbow", "appetite: at least less than
/// usual", "age 8 years or more".
[[nodiscard]] std::string test_text(Pack const& pack, Test const& test);

/// What stands at a part of a condition: the test in words, or "all of", "any of", "at least 2 of",
/// "not", or the title of the meaning.
[[nodiscard]] std::string node_text(Pack const& pack, Condition const& condition);

}  // namespace flinch
