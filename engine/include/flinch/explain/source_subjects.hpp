#pragma once
// Which causes a source speaks of, and so which sources may be printed as the reason at a cause.
#include <vector>

#include "flinch/model/pack.hpp"

namespace flinch {

/// A source speaks of the causes that cite it and of those whose figures were taken from it. One of
/// which neither is known, such as a handbook, may speak of any, and so may one that carries a
/// grade: practice and judgement. Refers to the pack, which must outlive it.
class SourceSubjects {
 public:
  explicit SourceSubjects(Pack const& pack);
  /// The sources of a rule at a cause that it names: that of the cause's own figure first, then
  /// those that the rule cites and that speak of the cause. Empty where only others are spoken of:
  /// the figure is judged.
  [[nodiscard]] std::vector<SourceId> at(RuleId rule, CauseId cause) const;

 private:
  Pack const& pack_;
  std::vector<std::vector<CauseId>> causes_;  ///< by source
};

}  // namespace flinch
